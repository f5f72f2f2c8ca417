"""Lines along which neighbours always differ by the same amount."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.proof.scan import Scan, scan_survivors
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.lines import read_lines, unkept
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class SameDifference:
    """Each two neighbours on the line differ by one amount, up or down by turns as they like."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """The line holds one of the ways to go on by one difference."""
        formula.scan(self._steps())

    def holds(self, grid: Grid) -> bool:
        """All differences are one."""
        return len({abs(grid[a] - grid[b]) for a, b in pairwise(self.cells)}) == 1

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no such way."""
        return unkept(dict(scan_survivors(self._steps(), pencil)), pencil)

    def moved(self, move: Move) -> "SameDifference":
        """The cells moved."""
        return SameDifference(move.all(self.cells))

    def _steps(self) -> Scan[tuple[int, ...]]:
        """The scan whose note is the last digit, and once there are two, the difference."""

        def step(state: tuple[int, ...], index: int, digit: int) -> tuple[int, ...] | None:
            if index == 0:
                return (digit,)
            difference = abs(digit - state[0])
            return (digit, difference) if state[1:] in ((), (difference,)) else None

        return Scan(self.cells, (), step, lambda state: True)


def read(node: Node, reader: Reader) -> tuple[SameDifference, ...]:
    """Paths of three cells or more."""
    return tuple(map(SameDifference, read_lines(node, reader, 3)))


def draw(board: Board, lines: Sequence[SameDifference]) -> tuple[Mark, ...]:
    """A trail each."""
    return tuple(Trail("same-difference", (line.cells,)) for line in lines)


def says(lines: Sequence[SameDifference]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("same-difference", len(lines)),)


RULE = Rule(
    name="same-difference",
    meaning="Along the line each two neighbours differ by the same amount.",
    marks="a list of paths of three cells or more",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Even strides
kind: sudoku
size: 6
rules:
  same-difference:
    - r1c6 sw w nw s
    - r4c2 w n ne n
    - r4c6 n sw nw e
    - r6c6 n sw w
    - r6c2 w ne se
givens: |
  . . . | . . 2
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
