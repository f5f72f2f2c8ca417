"""The corner that four cells share: how the rules with marks on corners read it."""

from typing import Final, TypeAlias

from verify.board import Cell
from verify.move import Move
from verify.reading.grammar import Part
from verify.reading.reader import Reader

AROUND: Final = 4
"""Cells around a corner."""

Corner: TypeAlias = tuple[Cell, Cell, Cell, Cell]
"""The four cells around a corner: upper left, upper right, lower left, lower right."""


def moved_corner(corner: Corner, move: Move) -> Corner:
    """The cells in a disguise."""
    one, two, three, four = sorted(move.all(corner))
    return one, two, three, four


def new_corner(at: Part[Cell], taken: set[Corner], reader: Reader) -> Corner | None:
    """The corner at the lower right of a cell, not taken yet; it is taken then."""
    cell, board = at.value, reader.board
    if cell is None:
        return None
    right, below, across = (board.step(cell, direction) for direction in ("e", "s", "se"))
    if right is None or below is None or across is None:
        found = f"{board.name(cell)}, a quad at the edge"
        reader.problems.expected(at.place, found, "the upper left of four cells")
        return None
    corner = (cell, right, below, across)
    if corner in taken:
        found = f"{board.name(cell)} a second time"
        reader.problems.expected(at.place, found, "one mark on a corner")
        return None
    taken.add(corner)
    return corner
