"""Lines on which odd and even digits alternate."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Mask, Pencil, Strike, bit, digits_of, every_digit
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.lines import read_lines, unkept
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class ParityLine:
    """Odd and even digits take turns along the cells."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """One literal says which cells are odd; each digit goes with it or against it."""
        odd_first = formula.fresh()
        for index, cell in enumerate(self.cells):
            for digit in digits_of(formula.pencil[cell]):
                way = odd_first if (index + digit) % 2 else -odd_first
                formula.implies(formula.literal(cell, digit), [way])

    def holds(self, grid: Grid) -> bool:
        """No two neighbours on the line are alike."""
        return all(grid[a] % 2 != grid[b] % 2 for a, b in pairwise(self.cells))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """What goes with a beginning that some cell does not allow."""
        masks = odd_even(self.digits)
        kept = dict.fromkeys(self.cells, 0)
        for first in (0, 1):
            ways = [pencil[cell] & masks[(first + at) % 2] for at, cell in enumerate(self.cells)]
            if all(ways):
                for cell, mask in zip(self.cells, ways, strict=True):
                    kept[cell] |= mask
        yield from unkept(kept, pencil)

    def moved(self, move: Move) -> "ParityLine":
        """The cells moved."""
        return ParityLine(move.all(self.cells), self.digits)


@lru_cache
def odd_even(digits: int) -> tuple[Mask, Mask]:
    """The even digits, and the odd ones."""
    even = sum(map(bit, range(2, digits + 1, 2)))
    return even, every_digit(digits) & ~even


def read(node: Node, reader: Reader) -> tuple[ParityLine, ...]:
    """Paths of two cells or more, on a board that has an even digit."""
    digits = reader.board.digits
    if digits < 2:
        reader.problems.expected(node.place, "one digit", "an even one as well")
        return ()
    return tuple(ParityLine(path, digits) for path in read_lines(node, reader))


def draw(board: Board, lines: Sequence[ParityLine]) -> tuple[Mark, ...]:
    """A trail each."""
    return tuple(Trail("parity-line", (line.cells,)) for line in lines)


def says(lines: Sequence[ParityLine]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("parity-line", len(lines)),)


RULE = Rule(
    name="parity-line",
    meaning="Odd and even digits alternate along the line.",
    marks="a list of paths",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Odd and even tides
kind: sudoku
size: 6
rules:
  parity-line:
    - r1c1 e se s sw
    - r6c6 w nw n ne
    - r1c5 e s s w
    - r6c2 w n n e
givens: |
  . . . | . . 4
  . . . | . . .
  -------------
  . . . | . . .
  1 . 3 | . . .
  -------------
  . . . | . 6 3
  . . . | . . .
""",
)
