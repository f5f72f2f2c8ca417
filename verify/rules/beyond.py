"""Lines beyond two ends: what is inside lies outside the interval of the ends."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Mask, Pencil, Strike, at_most, bit, digits_of
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.lines import read_lines, unkept
from verify.rules.neighbours import partners
from verify.rules.pairs import Partners, pair_clauses
from verify.rules.rule import Rule, Saying

LEAST_APART: Final = 4
"""How far apart the digits of the two ends are at least."""


@dataclass(frozen=True, slots=True)
class Beyond:
    """The ends differ by four or more; each digit inside is below both or above both."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """Each two digits of the ends leave to a cell inside only what lies beyond them."""
        first, *inside, last = self.cells
        pair_clauses(formula, first, last, _far(self.digits))
        for one in digits_of(formula.pencil[first]):
            for other in digits_of(formula.pencil[last] & _far(self.digits)[one]):
                ends = -formula.literal(first, one), -formula.literal(last, other)
                for cell in inside:
                    for digit in digits_of(formula.pencil[cell] & _span(one, other)):
                        formula.some((*ends, -formula.literal(cell, digit)))

    def holds(self, grid: Grid) -> bool:
        """Compare each with the lower end and with the higher."""
        low, high = sorted((grid[self.cells[0]], grid[self.cells[-1]]))
        inside = [grid[cell] for cell in self.cells[1:-1]]
        return high - low >= LEAST_APART and all(d < low or d > high for d in inside)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """What is in keeping with no two digits of the ends."""
        first, *inside, last = self.cells
        kept = dict.fromkeys(self.cells, 0)
        for one in digits_of(pencil[first]):
            for other in digits_of(pencil[last] & _far(self.digits)[one]):
                left = [pencil[cell] & ~_span(one, other) for cell in inside]
                if all(left):
                    kept[first] |= bit(one)
                    kept[last] |= bit(other)
                    for cell, mask in zip(inside, left, strict=True):
                        kept[cell] |= mask
        yield from unkept(kept, pencil)

    def moved(self, move: Move) -> "Beyond":
        """The cells moved."""
        return Beyond(move.all(self.cells), self.digits)


@lru_cache
def _far(digits: int) -> Partners:
    return partners(digits, lambda one, other: abs(one - other) >= LEAST_APART)


def _span(one: int, other: int) -> Mask:
    """The digits from the one to the other."""
    low, high = sorted((one, other))
    return at_most(high) & ~at_most(low - 1)


def read(node: Node, reader: Reader) -> tuple[Beyond, ...]:
    """Paths of three cells or more, on a board with a digit beyond two that are four apart."""
    digits = reader.board.digits
    if digits < LEAST_APART + 2:
        expected = f"{LEAST_APART + 2} or more, so that one lies beyond two that are four apart"
        reader.problems.expected(node.place, f"{digits} digits", expected)
        return ()
    return tuple(Beyond(path, digits) for path in read_lines(node, reader, 3))


def draw(board: Board, lines: Sequence[Beyond]) -> tuple[Mark, ...]:
    """A trail with a disc at both ends each."""
    return tuple(Trail("beyond", (line.cells,), start="circle", end="circle") for line in lines)


def says(lines: Sequence[Beyond]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("beyond", len(lines)),)


RULE = Rule(
    name="beyond",
    meaning="The ends differ by four or more; each digit inside is below both or above both.",
    marks="a list of paths of three cells or more, from end to end",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Far banks
kind: sudoku
size: 6
rules:
  beyond:
    - r4c3 nw nw n
    - r5c4 n se sw
givens: |
  . . . | . . 2
  . . . | 4 . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | 6 5 3
""",
)
