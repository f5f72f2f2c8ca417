"""The bar code of a book: EAN-13 at its nominal size, drawn as bars.

Measures by the GS1 General Specifications at 100 %: a module of 0.33 mm, 95 modules of bars, and
quiet zones of 11 modules at the left and 7 at the right, which nothing may be printed in.
"""

from collections.abc import Iterator
from itertools import groupby
from typing import Final

from layout.picture.items import Contour, Fill, Item
from layout.picture.shapes import rectangle
from layout.type.face import Face
from layout.type.fonts import font
from layout.type.paragraph import one_line

MODULE: Final = 0.33
"""The width of the thinnest bar, in millimetres."""

QUIET_LEFT: Final = 11
QUIET_RIGHT: Final = 7
"""The quiet zones in modules."""

BARS: Final = 95
WIDTH: Final = (QUIET_LEFT + BARS + QUIET_RIGHT) * MODULE
"""37.29 mm, quiet zones included."""

BAR_HEIGHT: Final = 22.85
GUARD: Final = 5 * MODULE
"""How far the guard bars reach below the others."""

DIGIT_HEIGHT: Final = 2.75
HEIGHT: Final = BAR_HEIGHT + MODULE + DIGIT_HEIGHT
"""25.93 mm, the digits under the bars included."""

ODD: Final = [
    "0001101",
    "0011001",
    "0010011",
    "0111101",
    "0100011",
    "0110001",
    "0101111",
    "0111011",
    "0110111",
    "0001011",
]
"""The digits 0 to 9 as seven modules each, 1 for a bar: the odd set, A."""

PARITY: Final = [
    "AAAAAA",
    "AABABB",
    "AABBAB",
    "AABBBA",
    "ABAABB",
    "ABBAAB",
    "ABBBAA",
    "ABABAB",
    "ABABBA",
    "ABBABA",
]
"""The sets of the left six digits, by the first digit, which has no bars of its own."""

ISBN_GAP: Final = 1.1
"""White between the number in words and the bars, in millimetres."""


def ean_13(digits: str) -> str:
    """The 95 modules of a number of 13 digits, whose check digit is right: 1 for a bar."""
    left = "".join(
        _set(kind, digit) for kind, digit in zip(PARITY[int(digits[0])], digits[1:7], strict=True)
    )
    right = "".join(_set("C", digit) for digit in digits[7:])
    return f"101{left}01010{right}101"


def _set(kind: str, digit: str) -> str:
    """A digit in one of the sets: C is A with bars for gaps, and B is C from right to left."""
    odd = ODD[int(digit)]
    turned = odd.translate({ord("0"): "1", ord("1"): "0"})
    return {"A": odd, "B": turned[::-1], "C": turned}[kind]


def bar_code(digits: str, x: float, y: float, font_name: str) -> Iterator[Item]:
    """The code with its digits; a point is the upper left corner of its left quiet zone."""
    yield Fill(tuple(_bars(ean_13(digits), x + QUIET_LEFT * MODULE, y)))
    face = _digit_face(font_name)
    for index, digit in enumerate(digits):
        line = one_line(digit, face)
        left = x + _digit_middle(index) * MODULE - line.width / 2
        yield from line.at(max(left, x), y + HEIGHT)


def _bars(modules: str, x: float, y: float) -> Iterator[Contour]:
    """A rectangle for each bar, the guards at both ends and in the middle longer."""
    at = 0
    for bar, run in groupby(modules):
        width = len(list(run))
        if bar == "1":
            guard = at < 3 or 45 <= at < 50 or at >= 92
            height = BAR_HEIGHT + (GUARD if guard else 0.0)
            yield rectangle(x + at * MODULE, y, width * MODULE, height)
        at += width


def _digit_middle(index: int) -> float:
    """Where a digit stands under its bars, in modules from the left edge; the first before them."""
    if index == 0:
        return 3.5
    half, place = divmod(index - 1, 6)
    return QUIET_LEFT + (50 if half else 3) + 7 * place + 3.5


def _digit_face(name: str) -> Face:
    size = DIGIT_HEIGHT / font(name).digit_height
    return Face(name, size, size)


def isbn_over(isbn: str, x: float, y: float, face: Face) -> Iterator[Item]:
    """The number in words, over the bars and no wider than they are."""
    line = one_line(isbn, face)
    if line.width > BARS * MODULE:
        line = one_line(isbn, face.scaled(BARS * MODULE / line.width))
    middle = x + (QUIET_LEFT + BARS / 2) * MODULE
    yield from line.at(middle - line.width / 2, y - ISBN_GAP)
