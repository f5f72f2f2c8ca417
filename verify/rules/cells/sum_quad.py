"""Numbers on a corner that tell what the four cells around it sum to."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Annotated

from verify.board import Board, Cell
from verify.facets import Facets, summing
from verify.formula.formula import Formula
from verify.marks import Badge, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import CELL, Entry, Listed, Part, Placed, Several, whole_from
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.corners import AROUND, Corner, moved_corner, new_corner
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.sums import sum_survivors
from verify.rules.workings.totals import total_clauses


@dataclass(frozen=True, slots=True)
class SumQuad:
    """The digits around the corner sum to `total`; any of them may repeat."""

    cells: Corner
    total: int

    def clauses(self, formula: Formula) -> None:
        """The four digits sum to `total`."""
        total_clauses(formula, dict.fromkeys(self.cells, 1), self.total)

    def holds(self, grid: Grid) -> bool:
        """The four digits sum to `total`."""
        return sum(grid[cell] for cell in self.cells) == self.total

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates in no choice of four digits with the sum."""
        terms = [(cell, 1) for cell in self.cells]
        for cell, kept in sum_survivors(terms, pencil, 1 << self.total):
            struck = pencil[cell] & ~kept
            if struck:
                others = tuple(other for other in self.cells if other != cell)
                yield Strike(((cell, struck),), others)

    def moved(self, move: Move) -> "SumQuad":
        """The cells moved, and the sum of what the digits become."""
        total = self.total
        if move.reverses:
            total = len(self.cells) * (move.before.digits + 1) - total
        return SumQuad(moved_corner(self.cells, move), total)

    def facets(self, digits: int) -> Facets:
        """The sum."""
        return summing(self.cells, self.total)


@dataclass(frozen=True, slots=True)
class Written:
    """A sum as a manifest writes it, at the upper left of the four cells."""

    at: Annotated[Part[Cell], CELL]
    sum: Annotated[Placed[Node], whole_from(AROUND)]


def make(marks: Several[Written], reader: Reader) -> tuple[SumQuad, ...]:
    """A sum that four digits can have, on corners that none before has."""
    quads = []
    taken: set[Corner] = set()
    for mark in marks.value:
        corner = new_corner(mark.value.at, taken, reader)
        most = AROUND * reader.board.digits
        total = reader.whole(mark.value.sum.value, AROUND, most, "the sum of four cells")
        if corner is not None and total is not None:
            quads.append(SumQuad(corner, total))
    return tuple(quads)


def draw(board: Board, quads: Sequence[SumQuad]) -> tuple[Mark, ...]:
    """A badge with the number on the corner."""
    return tuple(Badge("sum-quad", quad.cells, str(quad.total)) for quad in quads)


RULE = Rule(
    name="sum-quad",
    meaning="A number on a corner is the sum of the four digits around it, which may repeat.",
    marks="a list of `{at: r1c1, sum: N}`, at the upper left of the four cells",
    grammar=Listed(Entry(Written), "a list of marks such as {at: r1c1, sum: 20}"),
    make=make,
    draw=draw,
    says=partial(one_sentence, "sum-quad"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Sluice weights
kind: sudoku
size: 6
rules:
  sum-quad:
    - {at: r1c1, sum: 13}
    - {at: r1c3, sum: 15}
    - {at: r1c5, sum: 14}
    - {at: r2c2, sum: 15}
    - {at: r2c4, sum: 12}
    - {at: r3c1, sum: 11}
    - {at: r3c3, sum: 15}
    - {at: r3c5, sum: 16}
    - {at: r4c2, sum: 18}
    - {at: r4c4, sum: 13}
    - {at: r5c1, sum: 18}
    - {at: r5c3, sum: 12}
    - {at: r5c5, sum: 12}
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
