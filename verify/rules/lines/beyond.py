"""Beyond lines: the digits inside lie outside the interval of the two at the ends."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Final

from verify.board import Cell
from verify.facets import Facets
from verify.formula.formula import Formula
from verify.move import Move
from verify.pencil import Grid, Pencil, Strike, at_most, bit, digits_of
from verify.reading.grammar import Cells, Several
from verify.reading.reader import Reader
from verify.rules.workings.far_apart import apart
from verify.rules.workings.line_ends import below_where, ended, ended_rule, ends_apart
from verify.rules.workings.lines import unkept
from verify.rules.workings.pairs import pair_clauses

GAP: Final = 4
"""The ends differ by so much or more."""

LEAST_DIGITS: Final = GAP + 2
"""Two ends and all between them, and a digit beyond."""


@dataclass(frozen=True, slots=True)
class Beyond:
    """The ends differ by four or more; no digit inside lies from the one end's to the other's."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """The ends differ by `GAP`; each cell inside has a literal for above both, or below."""
        first, *inside, last = self.cells
        pair_clauses(formula, first, last, apart(GAP, formula.digits))
        for cell in inside:
            above = formula.fresh()
            for end in (first, last):
                below_where(formula, above, end, cell)
                below_where(formula, -above, cell, end)

    def holds(self, grid: Grid) -> bool:
        """The ends differ by `GAP`; all inside are below the lower end or above the higher one."""
        first, *inside, last = (grid[cell] for cell in self.cells)
        low, high = min(first, last), max(first, last)
        return high - low >= GAP and all(digit < low or high < digit for digit in inside)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit no choice of digits for the two ends."""
        first, *inside, last = self.cells
        kept = dict.fromkeys(self.cells, 0)
        for one, other in product(digits_of(pencil[first]), digits_of(pencil[last])):
            if abs(one - other) < GAP:
                continue
            beyond = at_most(min(one, other) - 1) | ~at_most(max(one, other))
            within = [pencil[cell] & beyond for cell in inside]
            if all(within):
                kept[first] |= bit(one)
                kept[last] |= bit(other)
                for cell, mask in zip(inside, within, strict=True):
                    kept[cell] |= mask
        return unkept(kept, pencil)

    def moved(self, move: Move) -> "Beyond":
        """The cells moved."""
        return Beyond(move.all(self.cells))

    def facets(self, digits: int) -> Facets:
        """The ends differ, from each other and from all inside."""
        return ends_apart(self.cells)


def make(paths: Several[Cells], reader: Reader) -> tuple[Beyond, ...]:
    """Paths of three cells or more, on six digits or more."""
    return tuple(map(Beyond, ended(paths, reader, LEAST_DIGITS)))


RULE = ended_rule(
    name="beyond",
    meaning=(
        "The two ends of the line differ by four or more, and every digit inside is smaller "
        "than both or larger than both."
    ),
    make=make,
    example="""\
title: Past the weirs
kind: sudoku
size: 6
rules:
  beyond:
    - r2c1 ne se
    - r5c6 sw nw
    - r2c6 sw se
    - r5c1 ne nw
givens: |
  . . . | . . .
  . . . | . . 5
  -------------
  . . 2 | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . 3
""",
)
