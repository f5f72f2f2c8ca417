"""Lines of low, middle and high: each three cells in a row hold one of each."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.lines import read_lines
from verify.rules.rule import Rule, Saying
from verify.rules.triads import of_other_class, triad_clauses, triad_strikes


@dataclass(frozen=True, slots=True)
class EntropicLine:
    """Each three cells in a row hold a low, a middle and a high digit."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """Near cells are of different classes."""
        triad_clauses(formula, self.cells, of_other_class(self.digits, _kind))

    def holds(self, grid: Grid) -> bool:
        """Look at every three in a row."""
        third = self.digits // 3
        kinds = [(grid[cell] - 1) // third for cell in self.cells]
        return all(
            len({a, b, c}) == 3 for a, b, c in zip(kinds, kinds[1:], kinds[2:], strict=False)
        )

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits of a class that a near cell must have."""
        return triad_strikes(self.cells, pencil, of_other_class(self.digits, _kind))

    def moved(self, move: Move) -> "EntropicLine":
        """The cells moved."""
        return EntropicLine(move.all(self.cells), self.digits)


def _kind(digit: int, digits: int) -> int:
    """0 low, 1 middle, 2 high: each a third of the digits."""
    return (digit - 1) * 3 // digits


def read(node: Node, reader: Reader) -> tuple[EntropicLine, ...]:
    """Paths of three cells or more, on a board whose digits make three equal parts."""
    digits = reader.board.digits
    if digits % 3:
        expected = "a number of digits that can be parted into three"
        reader.problems.expected(node.place, f"{digits} digits", expected)
        return ()
    return tuple(EntropicLine(path, digits) for path in read_lines(node, reader, 3))


def draw(board: Board, lines: Sequence[EntropicLine]) -> tuple[Mark, ...]:
    """A trail each."""
    return tuple(Trail("entropic-line", (line.cells,)) for line in lines)


def says(lines: Sequence[EntropicLine]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("entropic-line", len(lines)),)


RULE = Rule(
    name="entropic-line",
    meaning="Each three cells in a row on the line hold a low, a middle and a high digit.",
    marks="a list of paths of three cells or more",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Low, half, high
kind: sudoku
size: 6
rules:
  entropic-line:
    - r1c1 se e ne
    - r6c6 nw w sw
    - r3c1 se s sw
    - r4c6 nw n ne
givens: |
  . . . | . 6 .
  . . . | 2 . .
  -------------
  1 . . | 4 . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | 5 . .
""",
)
