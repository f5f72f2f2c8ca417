"""Lines between two ends: what is inside lies between the digits of the ends."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import (
    Grid,
    Mask,
    Pencil,
    Strike,
    at_most,
    digits_of,
    highest,
    lowest,
)
from verify.proof.formula import Formula, Literal
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.lines import read_lines, unkept
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class Between:
    """Each digit inside the line lies strictly between the digits of its two ends."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """The first end is the lower one, or the last; what is inside lies above the lower one."""
        first, *inside, last = self.cells
        rising = formula.fresh()
        for low, high, way in ((first, last, rising), (last, first, -rising)):
            for cell in inside:
                _below(formula, low, cell, way)
                _below(formula, cell, high, way)

    def holds(self, grid: Grid) -> bool:
        """Compare each with the lower end and with the higher."""
        low, high = sorted((grid[self.cells[0]], grid[self.cells[-1]]))
        return all(low < grid[cell] < high for cell in self.cells[1:-1])

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """What is in keeping neither with a rising line nor with a falling one."""
        first, last = self.cells[0], self.cells[-1]
        kept = dict.fromkeys(self.cells, 0)
        for low, high in ((first, last), (last, first)):
            for cell, mask in _ordered(low, self.cells[1:-1], high, pencil):
                kept[cell] |= mask
        yield from unkept(kept, pencil)

    def moved(self, move: Move) -> "Between":
        """The cells moved."""
        return Between(move.all(self.cells))


def _below(formula: Formula, low: Cell, high: Cell, way: Literal) -> None:
    """Where `way` holds, the one cell is lower than the other."""
    for digit in digits_of(formula.pencil[low]):
        above = formula.pencil[high] & ~at_most(digit)
        if above != formula.pencil[high]:
            formula.some((-way, -formula.literal(low, digit), *formula.chosen(high, above)))


def _ordered(
    low: Cell, inside: Sequence[Cell], high: Cell, pencil: Pencil
) -> list[tuple[Cell, Mask]]:
    """What is left of each cell where the ends are that way round; nothing where they can't be."""
    middle = [pencil[cell] for cell in inside]
    if not (pencil[low] and pencil[high] and all(middle)):
        return []
    above, below = at_most(lowest(pencil[low])), at_most(highest(pencil[high]) - 1)
    middle = [mask & ~above & below for mask in middle]
    if not all(middle):
        return []
    low_mask = pencil[low] & at_most(min(map(highest, middle)) - 1)
    high_mask = pencil[high] & ~at_most(max(map(lowest, middle)))
    # An end's own digits bound the others no further: its extreme one is kept.
    if not (low_mask and high_mask):
        return []
    return [(low, low_mask), *zip(inside, middle, strict=True), (high, high_mask)]


def read(node: Node, reader: Reader) -> tuple[Between, ...]:
    """Paths of three cells or more, on a board of three digits or more."""
    if reader.board.digits < 3:
        reader.problems.expected(node.place, f"{reader.board.digits} digits", "three or more")
        return ()
    return tuple(map(Between, read_lines(node, reader, 3)))


def draw(board: Board, lines: Sequence[Between]) -> tuple[Mark, ...]:
    """A trail with a disc at both ends each."""
    return tuple(Trail("between", (line.cells,), start="circle", end="circle") for line in lines)


def says(lines: Sequence[Between]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("between", len(lines)),)


RULE = Rule(
    name="between",
    meaning="The digits inside the line lie strictly between the two at its ends.",
    marks="a list of paths of three cells or more, from end to end",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Two banks
kind: sudoku
size: 6
rules:
  between:
    - r1c1 s s e e
    - r6c6 n n w w
    - r1c3 e e s s
    - r6c4 w w n n
givens: |
  . . . | . . 4
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
