"""The boxes of pages: what is cut, what bleeds, and how they nest (ISO 32000-1, 14.11.2)."""

from collections import Counter
from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.geometry import Box

ROUNDING: Final = 0.01
"""Points by which a box may be off."""

INSIDE: Final = (("Trim", "Bleed"), ("Art", "Bleed"), ("Bleed", "Media"), ("Trim", "Media"))
"""Boxes that lie in others. Where a page has a crop box, all lie in that, too."""


def check_boxes(file: FinishedFile) -> Iterator[Finding]:
    """Missing, crossed and differing boxes."""
    usual = Counter(_size(leaf.trim) for leaf in file.leaves).most_common(1)[0][0]
    bled = any("Bleed" in leaf.boxes for leaf in file.leaves)
    for leaf in file.leaves:
        yield from _missing(leaf, bled)
        yield from _nesting(leaf)
        if _size(leaf.trim) != usual:
            width, height = _size(leaf.trim)
            words = (
                f"the trim is {width} x {height} pt, that of other pages {usual[0]} x {usual[1]}"
            )
            yield Finding("boxes", leaf.number, words)
        if leaf.turned % 360 or leaf.unit != 1.0:
            yield Finding("boxes", leaf.number, "the page is turned or scaled by a key of its own")


def _size(box: Box) -> tuple[float, float]:
    return round(box.width, 1), round(box.height, 1)


def _missing(leaf: Leaf, bled: bool) -> Iterator[Finding]:
    if "Trim" not in leaf.boxes and "Art" not in leaf.boxes:
        yield Finding("boxes", leaf.number, "the trim box is missing")
    if "Trim" in leaf.boxes and "Art" in leaf.boxes:
        yield Finding("boxes", leaf.number, "found a trim box and an art box, expected one of them")
    if bled and "Bleed" not in leaf.boxes:
        yield Finding("boxes", leaf.number, "the bleed box is missing, which other pages have")


def _nesting(leaf: Leaf) -> Iterator[Finding]:
    crop = [(name, "Crop") for name in ("Trim", "Art", "Bleed") if "Crop" in leaf.boxes]
    for inner, outer in (*INSIDE, *crop):
        one, other = leaf.boxes.get(inner), leaf.boxes.get(outer)
        if one is not None and other is not None and not other.holds(one, ROUNDING):
            words = f"the {inner.lower()} box reaches out of the {outer.lower()} box"
            yield Finding("boxes", leaf.number, words)
    for name, box in leaf.boxes.items():
        if box.width <= 0 or box.height <= 0:
            yield Finding("boxes", leaf.number, f"the {name.lower()} box has no size")
