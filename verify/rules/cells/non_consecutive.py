"""Cells that share an edge never hold consecutive digits."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, partial

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, bit, digits_of, every_digit
from verify.reading.grammar import FLAG
from verify.rule import Rule
from verify.rules.workings.pairs import Partners, pair_clauses, pair_strikes
from verify.rules.workings.parts import everywhere_said, nothing_drawn, over_board


@dataclass(frozen=True, slots=True)
class NonConsecutive:
    """The digit of the first cell is consecutive to none of the others' digits."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """No two consecutive digits in the first cell and another one."""
        cell, *others = self.cells
        for other in others:
            pair_clauses(formula, cell, other, _partners(self.digits))

    def holds(self, grid: Grid) -> bool:
        """No other digit is one away from the first."""
        cell, *others = self.cells
        return all(abs(grid[cell] - grid[other]) != 1 for other in others)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that are consecutive to every candidate of a neighbour."""
        cell, *others = self.cells
        for other in others:
            yield from pair_strikes(cell, other, _partners(self.digits), pencil)

    def moved(self, move: Move) -> "NonConsecutive":
        """The cells moved."""
        return NonConsecutive(move.all(self.cells), self.digits)


@cache
def _partners(digits: int) -> Partners:
    """For each digit all that are not consecutive to it."""
    every = every_digit(digits)
    beside = (bit(digit - 1) | bit(digit + 1) for digit in digits_of(every))
    return (0, *(every & ~mask for mask in beside))


def of_board(board: Board) -> tuple[NonConsecutive, ...]:
    """Every cell with the cells to its right and below it, where there are any."""
    beside = (
        (cell, *(at for at in (board.step(cell, "e"), board.step(cell, "s")) if at is not None))
        for cell in board.cells
    )
    return tuple(NonConsecutive(cells, board.digits) for cells in beside if len(cells) > 1)


RULE = Rule(
    name="non-consecutive",
    meaning="Cells that share an edge never hold consecutive digits.",
    marks="`true`",
    grammar=FLAG,
    make=partial(over_board, of_board),
    draw=nothing_drawn,
    says=partial(everywhere_said, "non-consecutive"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Stepping stones
kind: sudoku
size: 6
rules:
  non-consecutive: true
givens: |
  . . . | . . .
  4 . . | . . .
  -------------
  . . . | . 3 .
  . 1 . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
