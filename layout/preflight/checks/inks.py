"""Colours: what a press has ink for."""

from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile

PRINTED: Final = frozenset({"DeviceGray", "DeviceCMYK", "Separation", "DeviceN", "Pattern"})

MOST_SPOTS: Final = 1
"""Spot inks beside black: each more is a plate more, and a run through the press."""

MOST_COVERAGE: Final = 3.0
"""Plates that one paint fills: of more ink no paper dries (common practice, no source)."""


def check_inks(file: FinishedFile) -> Iterator[Finding]:
    """Colour spaces that are not for a press, spot inks that are too many, and too much ink."""
    spots: set[str] = set()
    for leaf in file.leaves:
        marks = leaf.marks
        for space in sorted(marks.inks - PRINTED):
            words = f"found the colour space {space}, expected grey, CMYK or a spot ink"
            yield Finding("colours", leaf.number, words)
        new = marks.plates - spots
        if new and len(spots | new) > MOST_SPOTS:
            found = " and ".join(sorted(spots | new))
            yield Finding("colours", leaf.number, f"found the spot inks {found}, expected one")
        spots |= new
        if marks.coverage > MOST_COVERAGE + 1e-6:
            words = f"found {marks.coverage:.0%} of ink on one place"
            yield Finding("colours", leaf.number, f"{words}, expected at most {MOST_COVERAGE:.0%}")


def spot_inks(file: FinishedFile) -> list[str]:
    """The names of all spot inks."""
    return sorted(frozenset().union(*(leaf.marks.plates for leaf in file.leaves)))


def coverage(file: FinishedFile) -> float:
    """The most ink that a paint lays down; 1 is all of one plate."""
    return max(leaf.marks.coverage for leaf in file.leaves)
