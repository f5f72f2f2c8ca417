"""Pages that are named in words: "answer on page 71"."""

import re
from collections.abc import Collection, Iterator

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile
from layout.preflight.reading.phrases import Phrase


def named_pages(phrase: Phrase, sayings: Collection[str]) -> list[str]:
    """The labels that a phrase names in one of the sayings, such as "answer on page {page}".

    What several sayings read at one place counts once.
    """
    found: dict[int, str] = {}
    for saying in sayings:
        before, _, after = (" ".join(part.split()) for part in saying.partition("{page}"))
        pattern = rf"{re.escape(before)}\s*\b([0-9]+|[ivxlcdm]+)\b\s*{re.escape(after)}"
        for match in re.finditer(pattern.replace(r"\ ", r"\s+"), phrase.text):
            found[match.start(1)] = match[1]
    return list(found.values())


def pages_named_together(phrase: Phrase, sayings: Collection[str]) -> list[str]:
    """The labels behind one of the sayings, such as "answers on pages {pages}": one or several."""
    for saying in sayings:
        before = " ".join(saying.partition("{page")[0].split())
        _, found, behind = phrase.text.partition(before)
        if found:
            return re.findall(r"\b(?:[0-9]+|[ivxlcdm]+)\b", behind)
    return []


def check_references(file: FinishedFile, sayings: Collection[str]) -> Iterator[Finding]:
    """Pages that are named, and that the file has not."""
    labels = {leaf.label for leaf in file.leaves}
    for leaf in file.leaves:
        for phrase in leaf.phrases:
            for label in named_pages(phrase, sayings):
                if label not in labels:
                    found = f"“{phrase.text}” names page {label}, which is not in the file"
                    yield Finding("references", leaf.number, found)
