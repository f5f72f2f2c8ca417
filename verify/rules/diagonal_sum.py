"""Diagonal sums: the digits along a diagonal seen from outside sum to the clue."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell, Outside
from verify.disguise import Disguise, Move
from verify.marks import Clue, Mark
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.outside import Line
from verify.reading.reader import Reader
from verify.reading.schema import clues as clues_schema
from verify.rules.outside_clues import read_numbers
from verify.rules.rule import Rule, Saying
from verify.rules.sums import sum_survivors


@dataclass(frozen=True, slots=True)
class DiagonalSum:
    """The digits of the diagonal sum to `total`; they may repeat."""

    outside: Outside
    cells: tuple[Cell, ...]
    total: int
    digits: int

    def clauses(self, formula: Formula) -> None:
        """A plain sum."""
        formula.total(dict.fromkeys(self.cells, 1), self.total)

    def holds(self, grid: Grid) -> bool:
        """Sum them."""
        return sum(grid[cell] for cell in self.cells) == self.total

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no choice with that sum."""
        terms = [(cell, 1) for cell in self.cells]
        for cell, kept in sum_survivors(terms, pencil, 1 << self.total):
            if pencil[cell] & ~kept:
                yield Strike(((cell, pencil[cell] & ~kept),), self.cells)

    def moved(self, move: Move) -> "DiagonalSum":
        """The place and the cells moved, and the sum of what each digit becomes."""
        total = len(self.cells) * (self.digits + 1) - self.total if move.reverses else self.total
        outside, cells = move.outside(self.outside), move.all(self.cells)
        return DiagonalSum(outside, cells, total, self.digits)


def bounds(line: Line, digits: int) -> tuple[int, int]:
    """All 1 to all the largest digit, for they may repeat."""
    return len(line.cells), len(line.cells) * digits


def read(node: Node, reader: Reader) -> tuple[DiagonalSum, ...]:
    """A mapping from diagonal places outside to sums."""
    what = "the sum of the diagonal"
    return read_numbers(node, reader, DiagonalSum, bounds, what, diagonal=True)


def draw(board: Board, sums: Sequence[DiagonalSum]) -> tuple[Mark, ...]:
    """Each sum at its place, with its direction."""
    return tuple(Clue("diagonal", each.outside, str(each.total)) for each in sums)


def says(sums: Sequence[DiagonalSum]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("diagonal-sum", len(sums)),)


RULE = Rule(
    name="diagonal-sum",
    meaning="The digits along the diagonal that a clue outside points to sum to it.",
    marks="a mapping such as `top c3 se: 21`",
    schema=clues_schema({"type": "integer", "minimum": 1}, diagonal=True),
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Slant light
kind: sudoku
size: 6
rules:
  diagonal-sum:
    top c3 sw: 7
    top c5 sw: 15
    left r2 se: 16
    left r3 se: 10
    right r3 sw: 13
    right r4 nw: 14
    bottom c1 ne: 14
    bottom c3 nw: 9
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
