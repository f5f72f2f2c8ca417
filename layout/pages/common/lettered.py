"""Cells that words speak of by letters, which stand small in them."""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from itertools import islice
from typing import Final

from layout.board.board import LEAST_LABEL, lay_out
from layout.marks.label import figure
from layout.pages.common.design import Design
from layout.picture.items import Group, Item
from layout.telling.board_in_words import letters_in_words
from layout.type.fonts import font
from verify.board import Cell
from verify.marks import Badge
from verify.puzzle import Puzzle
from verify.walk.facts.step import Step

LETTERS: Final = "abcdefgh"

LETTER: Final = 0.24
"""The height of a letter in a cell, and how far it stays from the lines, as shares of the cell."""

LETTER_INSET: Final = 0.07

MOST_LETTER: Final = 0.46
"""The most of a cell that a letter takes where the style has no small ones."""

CELLS_AT_CORNER: Final = 4

CORNERS: Final = ((1, 0), (1, 1), (0, 1), (0, 0))
"""Columns and rows from a cell to the lines' crossings at its corners, in the order of taking.

Labels of cages stand in the upper left one.
"""


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
    """The letters of cells, in corners without a disc; to who hears the page, where they stand.

    The board is `width` wide, its upper left corner at x, y.
    """
    told = partial(letters_in_words, puzzle.board, cells, design.words)
    drawn = tuple(_drawn(puzzle, cells, x, y, width, design))
    if drawn:
        yield Group(0.0, 0.0, drawn, design.words.lists.comma.join(list(cells.values())), told)


def _drawn(
    puzzle: Puzzle, cells: Mapping[Cell, str], x: float, y: float, width: float, design: Design
) -> Iterator[Item]:
    """A letter in each of the cells."""
    lattice = lay_out(puzzle, design.board, width)
    beside = max(LETTER * lattice.side, LEAST_LABEL)
    alone = max(beside, _least(lattice.side, design))
    discs = _crossings_with_discs(puzzle)
    for cell, letter in cells.items():
        height = beside if puzzle.givens[cell] else alone
        inset = LETTER_INSET * lattice.side + height / 2
        row, column = puzzle.board.place(cell)
        across, down = next(
            (corner for corner in CORNERS if (row + corner[1], column + corner[0]) not in discs),
            CORNERS[0],
        )
        left, top = lattice.corner(row + down, column + across)
        middle = (x + left + inset * (1 - 2 * across), y + top + inset * (1 - 2 * down))
        yield figure(letter, design.board.steps.strong, height, middle)


def _least(side: float, design: Design) -> float:
    """The height of the style's smallest letters, for words speak of these; in a cell so large."""
    figures = font(design.board.steps.strong).digit_height
    return min(design.page.least * figures, MOST_LETTER * side)


def _crossings_with_discs(puzzle: Puzzle) -> set[tuple[int, int]]:
    """Row and column of each cell that has a disc on its upper left corner."""
    return {
        puzzle.board.place(max(mark.cells))
        for mark in puzzle.marks()
        if isinstance(mark, Badge) and len(mark.cells) == CELLS_AT_CORNER
    }
