"""Pages that are named in words: "answer on page 71"."""

import re
from collections.abc import Collection, Iterator

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile
from layout.preflight.reading.phrases import Phrase


def named_pages(phrase: Phrase, words: Collection[str]) -> list[str]:
    """The labels that a phrase names after one of the words for a page."""
    either = "|".join(map(re.escape, sorted(words)))
    return re.findall(rf"\b(?:{either})\s+([0-9]+|[ivxlcdm]+)\b", phrase.text, re.I)


def check_references(file: FinishedFile, words: Collection[str]) -> Iterator[Finding]:
    """Pages that are named, and that the file has not."""
    labels = {leaf.label for leaf in file.leaves}
    for leaf in file.leaves:
        for phrase in leaf.phrases:
            for label in named_pages(phrase, words):
                if label not in labels:
                    found = f"“{phrase.text}” names page {label}, which is not in the file"
                    yield Finding("references", leaf.number, found)
