"""Sandwiches: what stands between the 1 and the largest digit of a line sums to the clue."""

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
from verify.rules.outside_clues import Sight, draw_numbers, read_numbers, ways_strikes
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class Sandwich(Sight):
    """The digits between the 1 and the largest digit sum to `number`.

    Each of the two stands in the line exactly once.
    """

    def clauses(self, formula: Formula) -> None:
        """The line holds one of the ways to see it so."""
        formula.ways(_ways(len(self.cells), self.digits, self.number), self.cells)

    def holds(self, grid: Grid) -> bool:
        """Cut the line at the two digits; sum what is between."""
        line = [grid[cell] for cell in self.cells]
        if line.count(1) != 1 or line.count(self.digits) != 1:
            return False
        start, end = sorted((line.index(1), line.index(self.digits)))
        return sum(line[start + 1 : end]) == self.number

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no way to see it so."""
        ways = _ways(len(self.cells), self.digits, self.number)
        return ways_strikes(ways, self.cells, pencil)


@lru_cache(maxsize=1024)
def _ways(length: int, digits: int, number: int) -> Diagram:
    """States: the end that opened the sandwich (0 before, -1 behind it), and what is left."""
    ends = (1, digits)

    def step(state: tuple[int, int], index: int, digit: int) -> tuple[int, int] | None:
        opened, left = state
        if digit in ends:
            if opened == 0:
                return digit, left
            return (-1, 0) if opened in ends and digit != opened and left == 0 else None
        if opened in ends:
            return (opened, left - digit) if digit <= left else None
        return state

    scan = Scan(tuple(range(length)), (0, number), step, lambda state: state[0] == -1)
    return whole_diagram(scan, digits)


def bounds(line: Line, digits: int) -> tuple[int, int]:
    """From nothing between to as many of the largest digits as there is room for."""
    room = max(0, min(len(line.cells), digits) - 2)
    return 0, sum(range(digits - room, digits))


def read(node: Node, reader: Reader) -> tuple[Sandwich, ...]:
    """A mapping from places outside to sums, on lines that have room for both ends."""
    for line, _ in reader.clues(node):
        if len(line.cells) < 2 or reader.board.digits < 2:
            reader.problems.expected(node.place, "a sandwich on a line of one cell", "longer lines")
            return ()
    return read_numbers(node, reader, Sandwich, bounds, "the sum between the two digits")


def draw(board: Board, clues: Sequence[Sandwich]) -> tuple[Mark, ...]:
    """Each clue at its place."""
    return draw_numbers(board, clues)


def says(clues: Sequence[Sandwich]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("sandwich", len(clues)),)


RULE = Rule(
    name="sandwich",
    meaning="The digits between 1 and the largest digit of a line sum to the clue outside.",
    marks="a mapping such as `top c3: 12`",
    schema=clues_schema({"type": "integer", "minimum": 0}),
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Between tides
kind: sudoku
size: 6
rules:
  sandwich:
    right r2: 9
    right r4: 4
    bottom c1: 6
    bottom c4: 2
    bottom c6: 5
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . 6 | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
