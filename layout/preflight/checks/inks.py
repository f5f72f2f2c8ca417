"""Colours: what a press has ink for."""

from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile

PRINTED: Final = frozenset({"DeviceGray", "DeviceCMYK", "Separation", "DeviceN", "Pattern"})


def check_inks(file: FinishedFile) -> Iterator[Finding]:
    """Colour spaces that are set on each page and are not for a press."""
    for leaf in file.leaves:
        for space in sorted(leaf.marks.inks - PRINTED):
            words = f"found the colour space {space}, expected grey, CMYK or a spot ink"
            yield Finding("colours", leaf.number, words)
