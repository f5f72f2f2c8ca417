"""Corners at which four cells meet, as rules with marks on them read them."""

from collections.abc import Collection

from verify.board import Cell
from verify.reading.node import Node
from verify.reading.reader import Reader


def corner_cells(
    at: Node, taken: Collection[tuple[Cell, ...]], reader: Reader
) -> tuple[Cell, ...] | None:
    """The four cells around the lower right corner of a cell; None with a problem."""
    cell = reader.cell(at)
    if cell is None:
        return None
    board = reader.board
    around = (cell, *(board.step(cell, direction) for direction in ("e", "s", "se")))
    cells = tuple(each for each in around if each is not None)
    if len(cells) < 4:
        expected = "a cell with one to its right, one below and one between the two"
        reader.problems.expected(at.place, f"{board.name(cell)} at the edge", expected)
        return None
    if cells in taken:
        reader.problems.expected(at.place, f"{board.name(cell)} again", "one mark a corner")
        return None
    return cells
