"""Skyscrapers: how many are seen, each digit a height, taller hiding shorter."""

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
class Skyscraper(Sight):
    """`number` digits are seen from outside: those larger than all before them."""

    def clauses(self, formula: Formula) -> None:
        """The line holds one of the ways to see it so."""
        formula.ways(_ways(len(self.cells), self.digits, self.number), self.cells)

    def holds(self, grid: Grid) -> bool:
        """Walk along and count every new greatest height."""
        seen, highest = 0, 0
        for cell in self.cells:
            if grid[cell] > highest:
                seen, highest = seen + 1, grid[cell]
        return seen == self.number

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no way to see it so."""
        ways = _ways(len(self.cells), self.digits, self.number)
        return ways_strikes(ways, self.cells, pencil)


@lru_cache(maxsize=1024)
def _ways(length: int, digits: int, number: int) -> Diagram:
    """States: the greatest height so far, and how many are still to be seen."""

    def step(state: tuple[int, int], index: int, digit: int) -> tuple[int, int] | None:
        highest, left = state
        if digit <= highest:
            return state
        return (digit, left - 1) if left else None

    scan = Scan(tuple(range(length)), (0, number), step, lambda state: state[1] == 0)
    return whole_diagram(scan, digits)


def bounds(line: Line, digits: int) -> tuple[int, int]:
    """One at least; no more than there are cells or heights."""
    return 1, min(len(line.cells), digits)


def read(node: Node, reader: Reader) -> tuple[Skyscraper, ...]:
    """A mapping from places outside to counts."""
    return read_numbers(node, reader, Skyscraper, bounds, "the number of digits that are seen")


def draw(board: Board, clues: Sequence[Skyscraper]) -> tuple[Mark, ...]:
    """Each clue at its place."""
    return draw_numbers(board, clues)


def says(clues: Sequence[Skyscraper]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("skyscraper", len(clues)),)


RULE = Rule(
    name="skyscraper",
    meaning="A clue says how many digits are seen from outside, larger ones hiding smaller ones.",
    marks="a mapping such as `top c3: 4`",
    schema=clues_schema({"type": "integer", "minimum": 1}),
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Tall reeds
kind: sudoku
size: 6
rules:
  skyscraper:
    top c3: 2
    top c5: 5
    top c6: 3
    left r2: 2
    left r4: 2
    left r6: 5
    bottom c3: 3
    bottom c6: 4
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
