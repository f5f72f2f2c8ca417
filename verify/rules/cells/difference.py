"""Numbers between neighbours that tell how far apart their digits are."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Annotated

from verify.board import Board
from verify.facets import Facets
from verify.formula.formula import Formula
from verify.marks import Badge, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import GROUP, Cells, Entry, Listed, Part, Placed, Several, whole_from
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.neighbours import (
    Pair,
    moved_pair,
    numbered_pairs,
    partners,
)
from verify.rules.workings.pairs import Partners, pair_clauses, pair_strikes
from verify.rules.workings.parts import one_sentence


@dataclass(frozen=True, slots=True)
class Difference:
    """The digits of two neighbours lie `by` apart; which is the larger is not told."""

    cells: Pair
    by: int
    digits: int

    def clauses(self, formula: Formula) -> None:
        """A digit in one cell leaves those in the other that lie `by` apart from it."""
        pair_clauses(formula, *self.cells, _partners(self.digits, self.by))

    def holds(self, grid: Grid) -> bool:
        """The larger digit less the smaller is `by`."""
        one, other = self.cells
        return abs(grid[one] - grid[other]) == self.by

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit no candidate of the other cell."""
        return pair_strikes(*self.cells, _partners(self.digits, self.by), pencil)

    def moved(self, move: Move) -> "Difference":
        """The cells moved."""
        return Difference(moved_pair(self.cells, move), self.by, self.digits)

    def facets(self, digits: int) -> Facets:
        """The two cells differ."""
        return Facets(pairs=(self.cells,))


@lru_cache(maxsize=128)
def _partners(digits: int, by: int) -> Partners:
    return partners(digits, lambda one, other: other in (one - by, one + by))


@dataclass(frozen=True, slots=True)
class Written:
    """A difference as a manifest writes it."""

    pair: Annotated[Part[Cells], GROUP]
    by: Annotated[Placed[Node], whole_from(1)]


def make(marks: Several[Written], reader: Reader) -> tuple[Difference, ...]:
    """A difference that two digits can have, for each pair of neighbours."""
    digits = reader.board.digits
    what = f"the difference of two digits up to {digits}"
    written = ((mark.value.pair, mark.value.by) for mark in marks.value)
    numbers = numbered_pairs(written, reader, (1, digits - 1), what)
    return tuple(Difference(pair, by, digits) for pair, by in numbers.items())


def draw(board: Board, differences: Sequence[Difference]) -> tuple[Mark, ...]:
    """A badge with the number."""
    return tuple(Badge("difference", each.cells, str(each.by)) for each in differences)


RULE = Rule(
    name="difference",
    meaning="A number between two cells is the difference of their digits.",
    marks="a list of `{pair: r1c1 r1c2, by: N}`",
    grammar=Listed(Entry(Written), "a list of marks such as {pair: r1c1 r1c2, by: 5}"),
    make=make,
    draw=draw,
    says=partial(one_sentence, "difference"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Gauge boards
kind: sudoku
size: 6
rules:
  difference:
    - {pair: r1c1 r2c1, by: 5}
    - {pair: r1c2 r1c3, by: 1}
    - {pair: r1c4 r1c5, by: 1}
    - {pair: r2c3 r2c4, by: 2}
    - {pair: r3c1 r4c1, by: 1}
    - {pair: r3c2 r3c3, by: 5}
    - {pair: r3c2 r4c2, by: 4}
    - {pair: r3c3 r3c4, by: 2}
    - {pair: r3c5 r4c5, by: 2}
    - {pair: r3c6 r4c6, by: 1}
    - {pair: r4c3 r4c4, by: 4}
    - {pair: r4c4 r4c5, by: 3}
    - {pair: r5c3 r5c4, by: 4}
    - {pair: r5c6 r6c6, by: 1}
    - {pair: r6c2 r6c3, by: 3}
    - {pair: r6c4 r6c5, by: 1}
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . 5 .
""",
)
