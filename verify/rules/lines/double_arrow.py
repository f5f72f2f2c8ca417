"""Double arrows: the digits between two rings sum to what the rings sum to."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from verify.board import Cell
from verify.facets import Facets, Form, equal_sides
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import count_of, fitting, trails, unkept
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.sums import sum_survivors, sums_of
from verify.rules.workings.totals import total_clauses


@dataclass(frozen=True, slots=True)
class DoubleArrow:
    """The digits between the first and the last cell sum to those two."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """The sum between the ends, less the two end digits, is 0."""
        first, *between, last = self.cells
        total_clauses(formula, dict.fromkeys(between, 1) | {first: -1, last: -1}, 0)

    def holds(self, grid: Grid) -> bool:
        """The digits between the ends sum to the two end digits."""
        line = [grid[cell] for cell in self.cells]
        return sum(line[1:-1]) == line[0] + line[-1]

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates in no choice of digits with equal sums: all that the mark removes."""
        first, *between, last = ((cell, 1) for cell in self.cells)
        sides = [first, last], between
        equal = sums_of(sides[0], pencil) & sums_of(sides[1], pencil)
        kept = dict(pair for side in sides for pair in sum_survivors(side, pencil, equal))
        return unkept(kept, pencil)

    def moved(self, move: Move) -> "DoubleArrow":
        """The cells moved."""
        return DoubleArrow(move.all(self.cells))

    def facets(self, digits: int) -> Facets:
        """The ends and what lies between are equal; one cell between is larger than each end."""
        first, *between, last = self.cells
        sides = [(cell, 1) for cell in between], [(first, 1), (last, 1)]
        rises = ((first, between[0]), (last, between[0])) if len(between) == 1 else ()
        return Facets(sums=tuple(equal_sides(*sides)), rises=rises, all_by=Form.SUMS)


def make(paths: Several[Cells], reader: Reader) -> tuple[DoubleArrow, ...]:
    """Paths of three cells or more, with no more cells between the ends than their sum can be."""
    arrows = []
    most = 2 * reader.board.digits
    for path in fitting(paths, reader, least=3):
        between = len(path.value) - 2
        if between > most:
            found = f"{count_of(between)} between the ends"
            expected = f"at most {most}, the largest sum of the two ends"
            reader.problems.expected(path.place, found, expected)
        else:
            arrows.append(DoubleArrow(path.value))
    return tuple(arrows)


RULE = Rule(
    name="double-arrow",
    meaning="The digits between the two circled ends sum to the sum of the ends.",
    marks="a list of paths of three cells or more, from one circle to the other",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "double-arrow", ends="circle"),
    says=partial(one_sentence, "double-arrow"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Two moorings
kind: sudoku
size: 6
rules:
  double-arrow:
    - r1c5 sw 3w
    - r6c6 nw 3n
    - r5c1 se 3e
    - r5c4 n nw w sw
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . 2 | . . .
  -------------
  . . . | . . .
  4 . . | . . .
""",
)
