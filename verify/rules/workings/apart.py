"""Cells a leap apart that hold different digits: what the rules of chess moves share."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

from verify.board import Board, Cell
from verify.facets import Facets, Form
from verify.formula.formula import Formula
from verify.move import EVERY_DISGUISE, Disguise, Move
from verify.pencil import Grid, Pencil, Strike, is_single
from verify.reading.grammar import FLAG
from verify.rule import Rule
from verify.rules.workings.parts import everywhere_said, nothing_drawn, over_board

Leaps: TypeAlias = tuple[tuple[int, int], ...]
"""Rows down and columns right of each leap; of a leap and its opposite just the one that leads
to a later cell."""


@dataclass(frozen=True, slots=True)
class Apart:
    """The digit of the first cell stands in none of the others; these may be alike."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """The first cell differs from each other one."""
        cell, *others = self.cells
        for other in others:
            formula.differ(cell, other)

    def holds(self, grid: Grid) -> bool:
        """No other cell holds the digit of the first."""
        cell, *others = self.cells
        return all(grid[cell] != grid[other] for other in others)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """A digit placed in the first cell leaves the others; one placed there leaves the first."""
        cell, *others = self.cells
        placed = pencil[cell]
        if is_single(placed):
            removes = tuple((other, placed) for other in others if pencil[other] & placed)
            if removes:
                yield Strike(removes, (cell,))
        for other in others:
            struck = pencil[cell] & pencil[other]
            if struck and is_single(pencil[other]):
                yield Strike(((cell, struck),), (other,))

    def moved(self, move: Move) -> "Apart":
        """The cells moved."""
        return Apart(move.all(self.cells))

    def facets(self, digits: int) -> Facets:
        """The first cell differs from each other one, and the mark says nothing else."""
        cell, *others = self.cells
        return Facets(pairs=tuple((cell, other) for other in others), all_by=Form.APART)


def leap_rule(
    *, name: str, meaning: str, of_board: Callable[[Board], tuple[Apart, ...]], example: str
) -> Rule[bool, Apart]:
    """A rule by which cells a leap apart differ, wherever they lie."""
    return Rule(
        name=name,
        meaning=meaning,
        marks="`true`",
        grammar=FLAG,
        make=partial(over_board, of_board),
        draw=nothing_drawn,
        says=partial(everywhere_said, name),
        survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
        example=example,
    )


def leaps_of(board: Board, leaps: Leaps) -> tuple[Apart, ...]:
    """Every cell with the later cells that it reaches, where it reaches any."""
    stars = ((cell, *_reached(board, cell, leaps)) for cell in board.cells)
    return tuple(Apart(star) for star in stars if len(star) > 1)


def _reached(board: Board, cell: Cell, leaps: Leaps) -> Iterator[Cell]:
    row, column = board.place(cell)
    for down, right in leaps:
        if board.holds(row + down, column + right):
            yield board.cell(row + down, column + right)
