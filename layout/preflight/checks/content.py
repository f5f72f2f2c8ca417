"""What is on each page can be read at all."""

from collections.abc import Iterator

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile


def check_content(file: FinishedFile) -> Iterator[Finding]:
    """Pages that could not be followed to their end: nothing else is known of them."""
    for leaf in file.leaves:
        if leaf.fault:
            yield Finding("content", leaf.number, f"can't be read: {leaf.fault}")
