"""Slow thermometers: digits never shrink on the way from the bulb."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from verify.board import Cell
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.climbing import climb_clauses, climb_strikes, climbs_say, forked
from verify.rules.workings.lines import fitting_cells


@dataclass(frozen=True, slots=True)
class SlowThermometer:
    """Digits grow or stay the same along the cells, from the bulb."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """Each cell is at least as large as the one before it."""
        climb_clauses(formula, self.cells, 0)

    def holds(self, grid: Grid) -> bool:
        """No digit is smaller than the one before it."""
        return all(grid[a] <= grid[b] for a, b in pairwise(self.cells))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits smaller than all before can be, or larger than all after can be."""
        return climb_strikes(self.cells, pencil, 0)

    def moved(self, move: Move) -> "SlowThermometer":
        """The cells moved; from the other end where a disguise turns the order of digits about."""
        return SlowThermometer(move.all(self.cells[:: -1 if move.reverses else 1]))


def make(paths: Several[Cells], reader: Reader) -> tuple[SlowThermometer, ...]:
    """Paths of two cells or more."""
    return tuple(SlowThermometer(path) for path in fitting_cells(paths, reader))


RULE = Rule(
    name="slow-thermometer",
    meaning="Digits grow or stay the same along the shape, cell by cell, from the bulb.",
    marks="a list of paths, each from its bulb",
    grammar=PATHS,
    make=make,
    draw=partial(forked, "slow-thermometer"),
    says=partial(climbs_say, "slow-thermometer"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Slow tide
kind: sudoku
size: 6
rules:
  slow-thermometer:
    - r1c1 se e ne
    - r6c6 nw w sw
    - r3c5 s sw w
givens: |
  . . . | . 4 .
  . . . | . . .
  -------------
  . . . | 3 . .
  . 5 . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
