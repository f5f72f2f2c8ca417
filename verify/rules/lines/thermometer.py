"""Thermometers: digits grow from the bulb.

Two paths may share their first cells; together they are one thermometer that forks.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from verify.board import Cell
from verify.facets import Facets, rising
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.climbing import climb_clauses, climb_strikes, climbs_say, forked
from verify.rules.workings.lines import fitting_cells


@dataclass(frozen=True, slots=True)
class Thermometer:
    """Digits strictly grow along the cells, from the bulb."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """Each cell is larger than the one before it."""
        climb_clauses(formula, self.cells, 1)

    def holds(self, grid: Grid) -> bool:
        """Each digit is larger than the one before it."""
        return all(grid[a] < grid[b] for a, b in pairwise(self.cells))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits too small for the cells below, or too large for the cells above."""
        return climb_strikes(self.cells, pencil, 1)

    def moved(self, move: Move) -> "Thermometer":
        """The cells moved; from the other end where a disguise turns the order of digits about."""
        return Thermometer(move.all(self.cells[:: -1 if move.reverses else 1]))

    def facets(self, digits: int) -> Facets:
        """The cells rise from the bulb, and the mark says nothing else."""
        return rising(self.cells)


def make(paths: Several[Cells], reader: Reader) -> tuple[Thermometer, ...]:
    """Paths of two cells or more, none longer than there are digits."""
    longest = reader.board.digits
    return tuple(Thermometer(path) for path in fitting_cells(paths, reader, most=longest))


RULE = Rule(
    name="thermometer",
    meaning="Digits grow along the shape, cell by cell, from the bulb.",
    marks="a list of paths, each from its bulb",
    grammar=PATHS,
    make=make,
    draw=partial(forked, "thermometer"),
    says=partial(climbs_say, "thermometer"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Two reeds
kind: sudoku
size: 6
rules:
  thermometer:
    - r6c2 nw 2n ne
    - r1c5 se 2s sw
    - r3c3 s
givens: |
  . . . | 3 . .
  . . . | . . .
  -------------
  . . . | . 5 .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
