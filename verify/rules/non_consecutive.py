"""Cells that share an edge never hold consecutive digits."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark
from verify.pencil import Grid, Pencil, Strike, every_digit
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import FLAG
from verify.rules.pairs import Partners, pair_clauses, pair_strikes
from verify.rules.rule import Rule, Saying


@lru_cache
def _partners(digits: int) -> Partners:
    """For each digit, all but the one before it and the one after it."""
    return tuple(
        every_digit(digits) & ~(1 << digit + 1 | 1 << digit >> 1) for digit in range(digits + 1)
    )


@dataclass(frozen=True, slots=True)
class NonConsecutive:
    """The digit of the first cell does not follow or precede any of the others'."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """Each pair keeps clear."""
        first, *others = self.cells
        for other in others:
            pair_clauses(formula, first, other, _partners(self.digits))

    def holds(self, grid: Grid) -> bool:
        """No difference of 1."""
        first, *others = self.cells
        return all(abs(grid[first] - grid[other]) != 1 for other in others)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits next to all that a neighbour can hold."""
        first, *others = self.cells
        for other in others:
            yield from pair_strikes(first, other, _partners(self.digits), pencil)

    def moved(self, move: Move) -> "NonConsecutive":
        """The cells moved."""
        return NonConsecutive(move.all(self.cells), self.digits)


def of_board(board: Board) -> tuple[NonConsecutive, ...]:
    """Each cell with the next one to the right and the next one down."""
    found = []
    for cell in board.cells:
        others = (board.step(cell, direction) for direction in ("e", "s"))
        cells = (cell, *(other for other in others if other is not None))
        if len(cells) > 1:
            found.append(NonConsecutive(cells, board.digits))
    return tuple(found)


def read(node: Node, reader: Reader) -> tuple[NonConsecutive, ...]:
    """`true`."""
    return of_board(reader.board) if reader.flag(node) else ()


def draw(board: Board, pairs: Sequence[NonConsecutive]) -> tuple[Mark, ...]:
    """Nothing: the rule holds for the whole board."""
    return ()


def says(pairs: Sequence[NonConsecutive]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("non-consecutive"),)


RULE = Rule(
    name="non-consecutive",
    meaning="Cells that share an edge never hold consecutive digits.",
    marks="`true`",
    schema=FLAG,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Steep banks
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
