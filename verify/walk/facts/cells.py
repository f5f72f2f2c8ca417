"""Sets of cells as bits of a whole number: bit c stands for cell c."""

from collections.abc import Iterable, Iterator
from functools import reduce
from operator import or_
from typing import TypeAlias

from verify.board import Cell
from verify.pencil import digits_of

Cells: TypeAlias = int
"""A set of cells: bit c is set where cell c is in it."""

Candidate: TypeAlias = tuple[Cell, int]
"""A cell and a digit that it may hold."""


def cells_of(cells: Cells) -> Iterator[Cell]:
    """The cells of a set, in reading order."""
    return digits_of(cells)


def set_of(cells: Iterable[Cell]) -> Cells:
    """The set of some cells."""
    return reduce(or_, (1 << cell for cell in cells), 0)
