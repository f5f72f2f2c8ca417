"""The corner that four cells share: how the rules with marks on corners read it."""

from typing import TypeAlias

from verify.board import Cell
from verify.move import Move
from verify.reading.node import Node
from verify.reading.reader import Reader

Corner: TypeAlias = tuple[Cell, Cell, Cell, Cell]
"""The four cells around a corner: upper left, upper right, lower left, lower right."""


def moved_corner(corner: Corner, move: Move) -> Corner:
    """The cells in a disguise."""
    one, two, three, four = sorted(move.all(corner))
    return one, two, three, four


def read_corner(node: Node, reader: Reader, taken: set[Corner]) -> Corner | None:
    """The corner at the lower right of a cell, not taken before; it is taken then."""
    at = reader.cell(node)
    if at is None:
        return None
    board = reader.board
    right, below, across = (board.step(at, direction) for direction in ("e", "s", "se"))
    if right is None or below is None or across is None:
        found = f"{board.name(at)}, a quad at the edge"
        reader.problems.expected(node.place, found, "the upper left of four cells")
        return None
    corner = (at, right, below, across)
    if corner in taken:
        found = f"{board.name(at)} a second time"
        reader.problems.expected(node.place, found, "one mark on a corner")
        return None
    taken.add(corner)
    return corner
