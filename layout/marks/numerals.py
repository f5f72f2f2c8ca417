"""Numbers of rows and columns beside a board, by which its cells are named in words."""

from collections.abc import Iterator
from typing import Final

from layout.marks.label import figure
from layout.marks.lattice import Lattice
from layout.picture.items import Point, Text
from layout.style.board import StepLook

ROOM: Final = 0.5
"""Cells of room for them above a board and left of it."""

FROM_BOARD: Final = 0.26
"""How far their middle lies from the board, in cells."""


def numerals(look: StepLook, lattice: Lattice) -> Iterator[Text]:
    """The number of each column above the board, of each row left of it."""
    board, side = lattice.board, lattice.side
    away = FROM_BOARD * side + lattice.frame / 2
    for column in range(board.columns):
        yield _numeral(
            column, (lattice.left + (column + 0.5) * side, lattice.top - away), look, side
        )
    for row in range(board.rows):
        beside = lattice.left - away, lattice.top + (row + 0.5) * side
        yield _numeral(row, beside, look, side)


def _numeral(index: int, middle: Point, look: StepLook, side: float) -> Text:
    """The number of a line counted from 0."""
    return figure(str(index + 1), look.mark, look.height.at(side), middle)
