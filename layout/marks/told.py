"""What a step says of an open cell, small in its middle: "4–8", or digits one by one."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from layout.marks.label import figure
from layout.marks.pencil_marks import stroke_through
from layout.picture.items import Point
from layout.picture.order import Layer, Painted
from layout.style.board import StepLook
from layout.type.fonts import font
from verify.pencil import Mask, digits_of, highest, lowest

LEAST_SPAN: Final = 3
"""Digits in a row that are told by the first and the last of them."""

FEW: Final = 3
"""Digits that are told one by one rather than those that are gone."""

ON_ONE_ROW: Final = 2
IN_SQUARE: Final = 4
"""Digits that stand in one row, and in two of two; more have rows of three."""

APART: Final = 0.56
CLOSE: Final = 0.28
STRUCK_APART: Final = 0.66
"""White between two digits of a row, between three, and between struck ones, in their heights."""

DOWN: Final = 1.22
STRUCK_DOWN: Final = 1.4
"""From row to row, in heights of a figure."""

TWO_ROWS: Final = 1 + STRUCK_DOWN
"""The height of two rows, in heights of a figure."""


@dataclass(frozen=True, slots=True)
class TellingDigit:
    """A digit, or a span of them, that stands in a cell: kept or struck, in a font."""

    words: str
    font: str
    struck: bool = False


def known(left: Mask, every: Mask, symbols: Sequence[str], look: StepLook) -> list[TellingDigit]:
    """What is known of a cell: what is left, or what is gone where that is less."""
    gone = every & ~left
    names = [symbols[digit - 1] for digit in digits_of(left)]
    if len(names) >= LEAST_SPAN and not left & (left + (left & -left)):
        first, last = symbols[lowest(left) - 1], symbols[highest(left) - 1]
        return [TellingDigit(f"{first}\N{EN DASH}{last}", look.strong)]
    if len(names) > FEW and gone.bit_count() <= FEW:
        return [TellingDigit(symbols[digit - 1], look.mark, True) for digit in digits_of(gone)]
    return [TellingDigit(name, look.strong) for name in names]


def counted(
    candidates: Mask, struck: Mask, symbols: Sequence[str], look: StepLook
) -> list[TellingDigit]:
    """Candidates of a cell, those that go with a stroke."""
    return [
        TellingDigit(symbols[digit - 1], look.mark, True)
        if struck >> digit & 1
        else TellingDigit(symbols[digit - 1], look.strong)
        for digit in digits_of(candidates)
    ]


def is_on_one_row(words: Sequence[TellingDigit]) -> bool:
    """Whether the words leave room for a ring around them."""
    return len(words) <= ON_ONE_ROW


def draw_told(
    words: Sequence[TellingDigit], middle: Point, room: Point, side: float, look: StepLook
) -> Iterator[Painted]:
    """The words around a point, within so much room across and down, in shares of the cell."""
    rows = _rows(words)
    pitch = STRUCK_DOWN if any(each.struck for each in words) else DOWN
    natural = [_width(row) for row in rows]
    height = min(
        look.told.at(side),
        room[0] * side / max(natural),
        room[1] * side / (1 + pitch * (len(rows) - 1)),
    )
    x, y = middle
    for index, row in enumerate(rows):
        down = y + (index - (len(rows) - 1) / 2) * pitch * height
        left = x - max(natural) / 2 * height if len(rows) > 1 else x - natural[index] / 2 * height
        for each in row:
            wide = _wide(each)
            text = figure(each.words, each.font, height, (left + wide / 2 * height, down))
            yield Layer.PENCIL, text
            if each.struck:
                yield Layer.STRIKE, stroke_through(text, look, side)
            left += (wide + _apart(row)) * height


def _rows(words: Sequence[TellingDigit]) -> list[Sequence[TellingDigit]]:
    """One row of two at most, two rows of two, or rows of three."""
    if len(words) <= ON_ONE_ROW:
        return [words]
    across = 2 if len(words) <= IN_SQUARE else 3
    return [words[row * across :][:across] for row in range(ceil(len(words) / across))]


def _wide(each: TellingDigit) -> float:
    """The width of a digit's ink in heights of a figure."""
    face = font(each.font)
    left, _, right, _ = face.bounds(each.words)
    return (right - left) / face.digit_height


def _width(row: Sequence[TellingDigit]) -> float:
    return sum(map(_wide, row)) + _apart(row) * (len(row) - 1)


def _apart(row: Sequence[TellingDigit]) -> float:
    if len(row) > ON_ONE_ROW:
        return CLOSE
    return STRUCK_APART if any(each.struck for each in row) else APART
