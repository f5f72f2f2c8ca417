"""The bar code of a cover: whether a till reads it, and reads the number that stands there.

Measures by the GS1 General Specifications: a module of 0.264 to 0.66 mm, and quiet zones of 11
modules before and 7 behind the bars.
"""

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.bars import BarCode, bar_codes
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.geometry import Box, Point
from layout.preflight.reading.marks import Contour, Ink, Paint

LEAST_MODULE: Final = 0.264
MOST_MODULE: Final = 0.66
"""Millimetres of one module at 80 % and at 200 %."""

QUIET: Final = (11, 7)
"""Modules left and right in which nothing is printed."""

ROUNDING: Final = 0.05
"""Points by which a zone may be less."""

NUMBER: Final = re.compile(r"ISBN\D{0,3}((?:\d[- ]?){12}\d)")

POINT: Final = 25.4 / 72


def check_bar_code(file: FinishedFile) -> Iterator[Finding]:
    """What stands against the bars of each page."""
    for leaf in file.leaves:
        codes = list(bar_codes(leaf))
        told = {re.sub(r"\D", "", found) for found in _told(leaf)}
        if told and not codes:
            yield Finding("bar code", leaf.number, "found an ISBN, and no bars that can be read")
        for code in codes:
            yield from (Finding("bar code", leaf.number, words) for words in _wrong(code, told))
            for side, zone in zip(("left", "right"), _zones(code), strict=True):
                if _is_printed_in(leaf, zone):
                    words = f"something is printed in the quiet zone at the {side} of the bars"
                    yield Finding("bar code", leaf.number, words)


def _told(leaf: Leaf) -> Iterator[str]:
    """Numbers that are called an ISBN in words."""
    for phrase in leaf.phrases:
        yield from NUMBER.findall(phrase.text)


def _wrong(code: BarCode, told: set[str]) -> Iterator[str]:
    """What is wrong with the bars themselves."""
    module = code.module * POINT
    if not LEAST_MODULE - 1e-3 <= module <= MOST_MODULE + 1e-3:
        limits = f"{LEAST_MODULE} to {MOST_MODULE} mm"
        yield f"the thinnest bar is {module:.3f} mm, expected {limits}"
    if any(_plates(ink) != 1 for ink in code.inks):
        yield "the bars are not printed in one solid ink"
    if not code.digits:
        yield "the bars are not those of thirteen digits"
    elif sum(int(digit) * (1, 3)[at % 2] for at, digit in enumerate(code.digits)) % 10:
        yield f"the bars say {code.digits}, whose check digit is wrong"
    elif told and told != {code.digits}:
        (other,) = sorted(told - {code.digits})[:1]
        yield f"the bars say {code.digits}, the words {other}"


def _plates(ink: Ink) -> int:
    """How many plates are printed in full; 0 where one is not."""
    values = [1 - each for each in ink.values] if ink.space == "DeviceGray" else list(ink.values)
    used = [each for each in values if each > 0]
    return len(used) if used and all(each >= 1 - 1e-6 for each in used) else 0


def _zones(code: BarCode) -> tuple[Box, Box]:
    """The quiet zones beside the bars."""
    left, right = (modules * code.module - ROUNDING for modules in QUIET)
    box = code.box
    return (
        Box(box.left - left, box.bottom, box.left - ROUNDING, box.top),
        Box(box.right + ROUNDING, box.bottom, box.right + right, box.top),
    )


def _is_printed_in(leaf: Leaf, zone: Box) -> bool:
    """Whether anything leaves ink there that white does not cover again."""
    cleared = max((each.order for each in leaf.marks.paints if _clears(each, zone)), default=-1)
    letters = (
        each.box
        for each in leaf.marks.letters
        if each.box and each.order >= cleared and not each.ink.is_white
    )
    if any(box.meets(zone) for box in letters):
        return True
    later = (each for each in leaf.marks.paints if each.order > cleared and each.is_seen)
    images = (each for each in leaf.marks.images if each.order > cleared)
    return any(_touches(each, zone) for each in later) or any(
        each.box.meets(zone) for each in images
    )


def _clears(paint: Paint, zone: Box) -> bool:
    """Whether white is laid over all of a zone."""
    whole = len(paint.contours) == 1 and paint.contours[0].is_square
    return bool(whole and paint.fill and paint.fill.is_white and paint.box.holds(zone))


def _touches(paint: Paint, zone: Box) -> bool:
    """Whether the ink of a path reaches a zone; curves count by the lines between their points."""
    if not paint.box.meets(zone):
        return False
    near = zone.grown(paint.width / 2 if paint.stroke else 0.0)
    filled = paint.fill is not None and not paint.fill.is_white
    return any(
        (filled and each.is_square and each.box.meets(near)) or _crosses(each, near)
        for each in paint.contours
    )


def _crosses(contour: Contour, box: Box) -> bool:
    points = contour.points
    return any(map(box.has, points)) or any(
        _meets(one, other, box) for one, other in pairwise(points)
    )


def _meets(one: Point, other: Point, box: Box) -> bool:
    """Whether the straight line between two points meets a box."""
    begin, end = 0.0, 1.0
    for axis in (0, 1):
        low, high = box[axis], box[axis + 2]
        step = other[axis] - one[axis]
        if step == 0:
            if not low <= one[axis] <= high:
                return False
            continue
        first, last = sorted(((low - one[axis]) / step, (high - one[axis]) / step))
        begin, end = max(begin, first), min(end, last)
    return begin <= end
