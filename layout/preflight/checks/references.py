"""Pages that are named in words: "answer on page 71"."""

import re
from collections.abc import Collection, Iterator

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile
from layout.preflight.reading.phrases import Phrase


def named_pages(phrase: Phrase, sayings: Collection[str]) -> list[str]:
    """The labels that a phrase names in one of the sayings, such as "answer on page {page}"."""
    found = []
    for saying in sayings:
        before, _, after = (" ".join(part.split()) for part in saying.partition("{page}"))
        pattern = rf"{re.escape(before)}\s*\b([0-9]+|[ivxlcdm]+)\b\s*{re.escape(after)}"
        found += re.findall(pattern.replace(r"\ ", r"\s+"), phrase.text)
    return found


def check_references(file: FinishedFile, sayings: Collection[str]) -> Iterator[Finding]:
    """Pages that are named, and that the file has not."""
    labels = {leaf.label for leaf in file.leaves}
    for leaf in file.leaves:
        for phrase in leaf.phrases:
            for label in named_pages(phrase, sayings):
                if label not in labels:
                    found = f"“{phrase.text}” names page {label}, which is not in the file"
                    yield Finding("references", leaf.number, found)
