"""Bar codes of thirteen digits on a page, read from their bars (ISO/IEC 15420: EAN-13)."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from layout.preflight.reading.finished import Leaf
from layout.preflight.reading.geometry import Box, around_all
from layout.preflight.reading.marks import Ink

MODULES: Final = 95
BARS: Final = 30
"""Two at either end and in the middle, and two for each of twelve digits."""

RIGHT: Final = (
    *("1110010", "1100110", "1101100", "1000010", "1011100"),
    *("1001110", "1010000", "1000100", "1001000", "1110100"),
)
"""The digits 0 to 9 of the right half, 1 for a bar; those of the left half follow from them."""

FIRST: Final = (
    *("000000", "001011", "001101", "001110", "010011"),
    *("011001", "011100", "010101", "010110", "011010"),
)
"""By the first digit, which of the six left ones are told by the turned set."""

WIDEST: Final = 8.0
"""Points of the widest bar there may be: four modules at twice the nominal size."""

SLENDER: Final = 6.0
"""How many times as high as wide every bar is at least."""

SAME_TOP: Final = 0.5
"""Points by which the upper ends of bars may differ."""


@dataclass(frozen=True, slots=True)
class BarCode:
    """Bars in a row: the box of the shorter ones, one module in points, and the inks of all.

    `digits` are what they say, empty where that is nothing.
    """

    box: Box
    module: float
    inks: frozenset[Ink]
    digits: str


def bar_codes(leaf: Leaf) -> Iterator[BarCode]:
    """All rows of as many bars as a code of thirteen digits has."""
    bars = sorted(_bars(leaf), key=lambda each: (round(each[0].top, 0), each[0].left))
    run: list[tuple[Box, Ink]] = []
    for bar in bars:
        if run and not _goes_on(run[-1][0], bar[0]):
            yield from _read(run)
            run = []
        run.append(bar)
    yield from _read(run)


def _bars(leaf: Leaf) -> Iterator[tuple[Box, Ink]]:
    """Upright slender areas that are not white, with their ink."""
    for paint in leaf.marks.paints:
        if paint.fill is None or paint.fill.is_white:
            continue
        for contour in paint.contours:
            box = contour.box
            slender = 0 < box.width <= WIDEST and box.height >= SLENDER * box.width
            if contour.is_square and slender:
                yield box, paint.fill


def _goes_on(before: Box, box: Box) -> bool:
    return abs(before.top - box.top) <= SAME_TOP and 0 < box.left - before.right <= WIDEST


def _read(run: Sequence[tuple[Box, Ink]]) -> Iterator[BarCode]:
    if len(run) != BARS:
        return
    boxes = [box for box, _ in run]
    whole = around_all(boxes)
    module = whole.width / MODULES
    box = Box(whole.left, max(each.bottom for each in boxes), whole.right, whole.top)
    inks = frozenset(ink for _, ink in run)
    yield BarCode(box, module, inks, _digits(boxes, module))


def _digits(boxes: Sequence[Box], module: float) -> str:
    """What the bars say; nothing where they are no such code."""
    bits = "1" * round(boxes[0].width / module)
    for before, box in pairwise(boxes):
        bits += "0" * round((box.left - before.right) / module)
        bits += "1" * round(box.width / module)
    if len(bits) != MODULES or (bits[:3], bits[45:50], bits[92:]) != ("101", "01010", "101"):
        return ""
    left = [bits[3 + 7 * at : 10 + 7 * at] for at in range(6)]
    right = [bits[50 + 7 * at : 57 + 7 * at] for at in range(6)]
    plain = ["".join("10"[int(bit)] for bit in each) for each in RIGHT]
    turned = [each[::-1] for each in RIGHT]
    sets = "".join("0" if each in plain else "1" for each in left)
    if not all(each in (*plain, *turned) for each in left) or sets not in FIRST:
        return ""
    if not all(each in RIGHT for each in right):
        return ""
    digits = [FIRST.index(sets)]
    digits += [(plain if each in plain else turned).index(each) for each in left]
    digits += [RIGHT.index(each) for each in right]
    return "".join(map(str, digits))
