"""Cells that words speak of by letters, which stand small in them."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from typing import Final

from layout.board.board import LEAST_LABEL, lay_out
from layout.marks.label import figure
from layout.pages.common.design import Design
from layout.picture.items import Item
from verify.board import Cell
from verify.puzzle import Puzzle
from verify.walk.facts.step import Step

LETTERS: Final = "abcdefgh"

LETTER: Final = 0.24
"""The height of a letter in a cell, and how far it stays from the lines, as shares of the cell."""

LETTER_INSET: Final = 0.07


def called(steps: Sequence[Step]) -> dict[Cell, str]:
    """A letter for each cell that the steps speak of by itself, in the order of speaking."""
    cells: list[Cell] = []
    for step in steps:
        cells += [cell for cell, _ in (*step.places, *step.removes)]
        cells += () if step.because.houses else step.because.cells
        cells += (link.constraint.cells[0] for link in step.because.links if link.constraint.cells)
    return dict(zip(islice(dict.fromkeys(cells), len(LETTERS)), LETTERS, strict=False))


def letters_at(
    puzzle: Puzzle, cells: Mapping[Cell, str], x: float, y: float, width: float, design: Design
) -> Iterator[Item]:
    """The letters of cells, in their upper right corners: labels stand in the left ones.

    The board is `width` wide, its upper left corner at x, y.
    """
    lattice = lay_out(puzzle, design.board, width)
    height = max(LETTER * lattice.side, LEAST_LABEL)
    for cell, letter in cells.items():
        left, top = lattice.corner(*puzzle.board.place(cell))
        inset = LETTER_INSET * lattice.side + height / 2
        middle = (x + left + lattice.side - inset, y + top + inset)
        yield figure(letter, design.board.steps.strong, height, middle)
