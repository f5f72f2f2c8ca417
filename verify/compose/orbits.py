"""Cells whose givens stand and fall together: what a symmetry makes of one of them."""

from collections.abc import Collection, Iterator

from verify.board import Board, Cell
from verify.compose.want import SymmetryName

Orbit = tuple[Cell, ...]
"""Cells that a symmetry lays on each other, in reading order."""


def image(board: Board, cell: Cell, symmetry: SymmetryName) -> Cell:
    """Where a symmetry lays a cell: itself, its half turn, or left to right."""
    row, column = board.place(cell)
    if symmetry == "half-turn":
        return board.cell(board.rows - 1 - row, board.columns - 1 - column)
    if symmetry == "mirror":
        return board.cell(row, board.columns - 1 - column)
    return cell


def orbits(board: Board, symmetry: SymmetryName, cells: Collection[Cell]) -> Iterator[Orbit]:
    """The orbits that lie in some cells as a whole, each once, in reading order."""
    for cell in sorted(cells):
        other = image(board, cell, symmetry)
        if other >= cell and other in cells:
            yield (cell,) if other == cell else (cell, other)
