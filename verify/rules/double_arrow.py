"""Double arrows: the digits between the two ends of a line sum to the ends together."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.lines import read_lines
from verify.rules.rule import Rule, Saying
from verify.rules.sums import sum_survivors, sums_of


@dataclass(frozen=True, slots=True)
class DoubleArrow:
    """The digits inside the line sum to the sum of its two ends."""

    cells: tuple[Cell, ...]

    @property
    def ends(self) -> tuple[Cell, Cell]:
        """The first cell and the last."""
        return self.cells[0], self.cells[-1]

    def clauses(self, formula: Formula) -> None:
        """Inside less ends is nothing."""
        weights = dict.fromkeys(self.cells, 1)
        weights.update(dict.fromkeys(self.ends, -1))
        formula.total(weights, 0)

    def holds(self, grid: Grid) -> bool:
        """Sum both sides."""
        first, *inside, last = (grid[cell] for cell in self.cells)
        return sum(inside) == first + last

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no choice whose two sides are equal."""
        sides = [[(cell, 1) for cell in side] for side in (self.ends, self.cells[1:-1])]
        equal = sums_of(sides[0], pencil) & sums_of(sides[1], pencil)
        for terms in sides:
            for cell, kept in sum_survivors(terms, pencil, equal):
                if pencil[cell] & ~kept:
                    yield Strike(((cell, pencil[cell] & ~kept),), self.cells)

    def moved(self, move: Move) -> "DoubleArrow":
        """The cells moved."""
        return DoubleArrow(move.all(self.cells))


def read(node: Node, reader: Reader) -> tuple[DoubleArrow, ...]:
    """Paths of three cells or more, inside which no sum is too large for the ends."""
    most = 2 * reader.board.digits
    return tuple(map(DoubleArrow, read_lines(node, reader, 3, most + 2)))


def draw(board: Board, lines: Sequence[DoubleArrow]) -> tuple[Mark, ...]:
    """A trail with a ring at both ends each."""
    return tuple(
        Trail("double-arrow", (line.cells,), start="circle", end="circle") for line in lines
    )


def says(lines: Sequence[DoubleArrow]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("double-arrow", len(lines)),)


RULE = Rule(
    name="double-arrow",
    meaning="The digits between the ringed ends of a line sum to the two ends together.",
    marks="a list of paths of three cells or more, from end to end",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Both ways
kind: sudoku
size: 6
rules:
  double-arrow:
    - r1c1 e e
    - r6c6 w w
    - r2c1 s s s
    - r5c6 n n n
    - r2c4 w se
givens: |
  . . . | . 1 .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . 1
  -------------
  . . . | . . .
  . . . | . . .
""",
)
