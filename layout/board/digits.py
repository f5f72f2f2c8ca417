"""Digits in the middles of cells, and the room that other things leave them."""

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from itertools import accumulate
from typing import Final

from layout.marks.lattice import Lattice
from layout.picture.items import Stroke, Text
from layout.picture.order import Layer, Painted
from layout.picture.shapes import moved
from layout.style.board import DigitLook
from layout.type.fonts import font
from verify.board import Cell

LABEL_GAP: Final = 0.035
"""White between a label in a cell's corner and the digit below it, as a share of the cell."""

LEAST_HEIGHT: Final = 0.26
"""No label makes a digit lower than this share of its cell."""


def label_feet(painted: Iterable[Painted], lattice: Lattice) -> dict[Cell, float]:
    """How far down its cell each label in a corner reaches, as a share of the cell."""
    feet: dict[Cell, float] = {}
    for label in (item for layer, item in painted if layer is Layer.LABEL):
        if isinstance(label, Text):
            foot = label.y - font(label.font).bounds(label.text)[1] * label.size
            row, down = divmod((foot - lattice.top) / lattice.side, 1)
            cell = lattice.board.cell(int(row), int((label.x - lattice.left) // lattice.side))
            feet[cell] = max(down, feet.get(cell, 0.0))
    return feet


def with_room(look: DigitLook, feet: Iterable[float]) -> DigitLook:
    """The look, its digits low enough to stand clear under labels that reach so far down."""
    height = min((2 * (0.5 - foot - LABEL_GAP) for foot in feet), default=look.height)
    return look if height >= look.height else replace(look, height=max(height, LEAST_HEIGHT))


def halo(text: Text, width: float) -> Stroke:
    """White along the outlines of a text."""
    face = font(text.font)
    starts = accumulate(text.advances, initial=0.0)
    path = tuple(
        contour
        for char, start in zip(text.text, starts, strict=False)
        for contour in moved(face.outline(char), text.x + start * text.size, text.y, text.size)
    )
    return Stroke(path, width, 1.0, join="round")


def digit(
    symbol: str, name: str, height: float, widest: float, lattice: Lattice, cell: Cell
) -> Text:
    """A symbol whose ink is centred in the cell both ways; its bounds are shares of the cell."""
    right, down, size, advances = _set(symbol, name, height, widest)
    x, y = lattice.centre(cell)
    side = lattice.side
    return Text(x + right * side, y + down * side, symbol, name, size * side, advances)


@lru_cache(maxsize=4096)
def _set(
    symbol: str, name: str, height: float, widest: float
) -> tuple[float, float, float, tuple[float, ...]]:
    """Where a symbol's origin stands from the cell's middle, its size and advances, by side 1."""
    face = font(name)
    left, bottom, right, top = face.bounds(symbol)
    size = min(height / face.digit_height, widest / max(right - left, 1e-6))
    return -(left + right) / 2 * size, (bottom + top) / 2 * size, size, face.advances(symbol)
