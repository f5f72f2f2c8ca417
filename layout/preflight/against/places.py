"""Places on a board in cells, right and down from its upper left corner."""

from collections.abc import Sequence

from layout.preflight.reading.geometry import Point
from verify.board import Board, Cell


def middle_of(board: Board, cell: Cell) -> Point:
    """The middle of a cell."""
    row, column = board.place(cell)
    return column + 0.5, row + 0.5


def mean_of(board: Board, cells: Sequence[Cell]) -> Point:
    """The middle between cells: of two neighbours that of their edge, of four their corner."""
    xs, ys = zip(*(middle_of(board, cell) for cell in cells), strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys)
