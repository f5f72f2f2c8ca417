"""Between lines: the digits inside lie between the two at the ends."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from verify.board import Cell
from verify.facets import Facets
from verify.formula.formula import Formula
from verify.move import Move
from verify.pencil import Grid, Pencil, Strike, at_most, highest, lowest
from verify.reading.grammar import Cells, Several
from verify.reading.reader import Reader
from verify.rules.workings.line_ends import below_where, ended, ended_rule, ends_apart
from verify.rules.workings.lines import unkept

LEAST_DIGITS: Final = 3
"""Two ends, and a digit between them."""


@dataclass(frozen=True, slots=True)
class Between:
    """Every digit inside is higher than one end's and lower than the other's."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """A fresh literal for the first end as the lower one; its negation for the last end."""
        formula.stamp(_between, self.cells)

    def holds(self, grid: Grid) -> bool:
        """All inside are above the lower end and below the higher one."""
        first, *inside, last = (grid[cell] for cell in self.cells)
        return all(min(first, last) < digit < max(first, last) for digit in inside)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit neither with the first end as the lower one nor with the last."""
        first, *inside, last = self.cells
        kept = dict.fromkeys(self.cells, 0)
        for lower, higher in ((first, last), (last, first)):
            if not pencil[lower] or not pencil[higher]:
                continue
            room = at_most(highest(pencil[higher]) - 1) & ~at_most(lowest(pencil[lower]))
            within = [pencil[cell] & room for cell in inside]
            if all(within):
                kept[lower] |= pencil[lower] & at_most(min(map(highest, within)) - 1)
                kept[higher] |= pencil[higher] & ~at_most(max(map(lowest, within)))
                for cell, mask in zip(inside, within, strict=True):
                    kept[cell] |= mask
        return unkept(kept, pencil)

    def moved(self, move: Move) -> "Between":
        """The cells moved."""
        return Between(move.all(self.cells))

    def facets(self, digits: int) -> Facets:
        """Each end differs from all inside, and so from the other end."""
        return ends_apart(self.cells)


def _between(formula: Formula, cells: Cells) -> None:
    first, *inside, last = cells
    rising = formula.fresh()
    for cell in inside:
        for guard, lower, higher in ((rising, first, last), (-rising, last, first)):
            below_where(formula, guard, lower, cell)
            below_where(formula, guard, cell, higher)


def make(paths: Several[Cells], reader: Reader) -> tuple[Between, ...]:
    """Paths of three cells or more, on three digits or more."""
    return tuple(map(Between, ended(paths, reader, LEAST_DIGITS)))


RULE = ended_rule(
    name="between",
    meaning="Every digit inside the line lies strictly between the two at its ends.",
    make=make,
    example="""\
title: Between locks
kind: sudoku
size: 6
rules:
  between:
    - r1c1 2e s sw
    - r2c1 s se e
    - r5c6 n nw w
    - r6c6 2w n ne
givens: |
  . . . | . . .
  . . . | . . 5
  -------------
  . . . | . . 4
  . . . | . . .
  -------------
  . . . | . . .
  . 1 . | 3 . .
""",
)
