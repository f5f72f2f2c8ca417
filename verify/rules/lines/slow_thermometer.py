"""Slow thermometers: digits never shrink on the way from the bulb."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.marks import Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rule import Rule, Saying
from verify.rules.workings.climbing import climb_clauses, climb_strikes, climbs_say, forked
from verify.rules.workings.lines import read_lines


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
        """Turned round where the order of the digits is."""
        return SlowThermometer(move.all(self.cells[:: -1 if move.reverses else 1]))


def read(node: Node, reader: Reader) -> tuple[SlowThermometer, ...]:
    """Paths of two cells or more."""
    return tuple(SlowThermometer(path) for path in read_lines(node, reader))


def draw(board: Board, thermometers: Sequence[SlowThermometer]) -> tuple[Mark, ...]:
    """One trail with a bulb for every bulb."""
    return forked("slow-thermometer", [thermometer.cells for thermometer in thermometers])


def says(thermometers: Sequence[SlowThermometer]) -> tuple[Saying, ...]:
    """One sentence; forks add one of their own."""
    return climbs_say("slow-thermometer", [thermometer.cells for thermometer in thermometers])


RULE = Rule(
    name="slow-thermometer",
    meaning="Digits grow or stay the same along the shape, cell by cell, from the bulb.",
    marks="a list of paths, each from its bulb",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
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
