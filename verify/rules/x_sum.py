"""Counted sums: the first digit of a line says how many of its cells sum to the clue."""

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
class XSum(Sight):
    """The first N digits sum to `number`, N being the digit of the first cell."""

    def clauses(self, formula: Formula) -> None:
        """The line holds one of the ways to see it so."""
        formula.ways(_ways(len(self.cells), self.digits, self.number), self.cells)

    def holds(self, grid: Grid) -> bool:
        """Sum as many digits as the first one says."""
        count = grid[self.cells[0]]
        counted = [grid[cell] for cell in self.cells[:count]]
        return len(counted) == count and sum(counted) == self.number

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no way to see it so."""
        ways = _ways(len(self.cells), self.digits, self.number)
        return ways_strikes(ways, self.cells, pencil)


@lru_cache(maxsize=1024)
def _ways(length: int, digits: int, number: int) -> Diagram:
    """States: how many cells are still to be summed, and what is left of the sum."""

    def step(state: tuple[int, int], index: int, digit: int) -> tuple[int, int] | None:
        to_go, left = (digit, number) if index == 0 else state
        if to_go == 0:
            return state
        rest = to_go - 1
        after = left - digit
        if rest > length - index - 1 or not rest <= after <= rest * digits:
            return None
        return rest, after

    scan = Scan(tuple(range(length)), (0, number), step, lambda state: state == (0, 0))
    return whole_diagram(scan, digits)


def bounds(line: Line, digits: int) -> tuple[int, int]:
    """From a 1 alone to the largest sum that any first digit leaves, digits repeating or not."""
    counts = range(1, min(len(line.cells), digits) + 1)
    return 1, max(count + (count - 1) * digits for count in counts)


def read(node: Node, reader: Reader) -> tuple[XSum, ...]:
    """A mapping from places outside to sums."""
    return read_numbers(node, reader, XSum, bounds, "the sum of the first cells")


def draw(board: Board, clues: Sequence[XSum]) -> tuple[Mark, ...]:
    """Each clue at its place."""
    return draw_numbers(board, clues)


def says(clues: Sequence[XSum]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("x-sum", len(clues)),)


RULE = Rule(
    name="x-sum",
    meaning="The first digit of a line says how many of its first digits sum to the clue.",
    marks="a mapping such as `bottom c4: 23`",
    schema=clues_schema({"type": "integer", "minimum": 1}),
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Counted steps
kind: sudoku
size: 6
rules:
  x-sum:
    top c2: 1
    top c5: 6
    top c6: 17
    left r2: 8
    right r3: 21
    right r5: 1
    right r6: 17
    bottom c2: 10
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
