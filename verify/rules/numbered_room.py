"""Numbered rooms: the first digit of a line says in which of its cells the clue stands."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from verify.board import Board
from verify.disguise import Disguise
from verify.marks import Mark
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.proof.scan import Diagram, Scan, whole_diagram
from verify.reading.node import Node
from verify.reading.outside import Line
from verify.reading.reader import Reader
from verify.reading.schema import clues as clues_schema
from verify.rules.outside_clues import Sight, draw_digits, read_numbers, ways_strikes
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class NumberedRoom(Sight):
    """The digit `number` stands in the N-th cell, N being the digit of the first cell."""

    def clauses(self, formula: Formula) -> None:
        """The line holds one of the ways to see it so."""
        formula.ways(_ways(len(self.cells), self.digits, self.number), self.cells)

    def holds(self, grid: Grid) -> bool:
        """Look up the cell that the first digit counts to."""
        place = grid[self.cells[0]]
        return place <= len(self.cells) and grid[self.cells[place - 1]] == self.number

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no way to see it so."""
        ways = _ways(len(self.cells), self.digits, self.number)
        return ways_strikes(ways, self.cells, pencil)


@lru_cache(maxsize=1024)
def _ways(length: int, digits: int, number: int) -> Diagram:
    """States: how many cells there are still to go to the room; 0 when it is passed."""

    def step(to_go: int, index: int, digit: int) -> int | None:
        if index == 0:
            # The first cell may be the room itself.
            if digit > length or (digit == 1 and number != 1):
                return None
            return digit - 1
        if to_go == 1:
            return 0 if digit == number else None
        return max(0, to_go - 1)

    return whole_diagram(Scan(tuple(range(length)), 0, step, lambda to_go: to_go == 0), digits)


def bounds(line: Line, digits: int) -> tuple[int, int]:
    """Any digit."""
    return 1, digits


def read(node: Node, reader: Reader) -> tuple[NumberedRoom, ...]:
    """A mapping from places outside to digits."""
    return read_numbers(node, reader, NumberedRoom, bounds, "a digit by its number")


def draw(board: Board, clues: Sequence[NumberedRoom]) -> tuple[Mark, ...]:
    """Each clue at its place."""
    return draw_digits(board, clues)


def says(clues: Sequence[NumberedRoom]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("numbered-room", len(clues)),)


RULE = Rule(
    name="numbered-room",
    meaning="The first digit of a line counts to the cell in which the clue outside stands.",
    marks="a mapping such as `left r2: 7`",
    schema=clues_schema({"type": "integer", "minimum": 1}),
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Berth numbers
kind: sudoku
size: 6
rules:
  numbered-room:
    top c2: 2
    left r4: 5
    left r5: 1
    left r6: 1
    right r3: 6
    right r5: 6
    bottom c2: 1
    bottom c4: 5
    bottom c5: 3
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
