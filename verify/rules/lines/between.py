"""Between lines: the digits inside lie between the two at the ends."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from verify.board import Board, Cell
from verify.facets import Facets
from verify.formula.formula import Formula
from verify.marks import Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, at_most, highest, lowest
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rule import Rule, Saying
from verify.rules.workings.line_ends import below_where, read_ended, with_discs
from verify.rules.workings.lines import unkept

LEAST_DIGITS: Final = 3
"""Two ends, and a digit between them."""


@dataclass(frozen=True, slots=True)
class Between:
    """Every digit inside is higher than one end's and lower than the other's."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """A fresh literal for the first end as the lower one; its negation for the last."""
        first, *inside, last = self.cells
        rising = formula.fresh()
        for cell in inside:
            for guard, lower, higher in ((rising, first, last), (-rising, last, first)):
                below_where(formula, guard, lower, cell)
                below_where(formula, guard, cell, higher)

    def holds(self, grid: Grid) -> bool:
        """All inside are above the lower end and below the higher one."""
        first, *inside, last = (grid[cell] for cell in self.cells)
        return all(min(first, last) < digit < max(first, last) for digit in inside)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand neither where the first end is the lower nor where the last is."""
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
        first, *inside, last = self.cells
        across = ((end, cell) for cell in inside for end in (first, last))
        return Facets(pairs=(*across, (first, last)))


def read(node: Node, reader: Reader) -> tuple[Between, ...]:
    """Paths of three cells or more, on three digits or more."""
    return tuple(map(Between, read_ended(node, reader, LEAST_DIGITS)))


def draw(board: Board, lines: Sequence[Between]) -> tuple[Mark, ...]:
    """A trail between two discs each."""
    return with_discs("between", [line.cells for line in lines])


def says(lines: Sequence[Between]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("between", len(lines)),)


RULE = Rule(
    name="between",
    meaning="Every digit inside the line lies strictly between the two at its ends.",
    marks="a list of paths of three cells or more, each from one end to the other",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
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
