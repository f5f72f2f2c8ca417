"""Lines on which each three digits in a row leave different remainders by three."""

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
class ModularLine:
    """Each three cells in a row hold digits that differ in their remainder by three."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """Near cells are of different classes."""
        triad_clauses(formula, self.cells, of_other_class(self.digits, _kind))

    def holds(self, grid: Grid) -> bool:
        """Look at every three in a row."""
        rests = [grid[cell] % 3 for cell in self.cells]
        return all(
            len({a, b, c}) == 3 for a, b, c in zip(rests, rests[1:], rests[2:], strict=False)
        )

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits of a class that a near cell must have."""
        return triad_strikes(self.cells, pencil, of_other_class(self.digits, _kind))

    def moved(self, move: Move) -> "ModularLine":
        """The cells moved."""
        return ModularLine(move.all(self.cells), self.digits)


def _kind(digit: int, digits: int) -> int:
    """The remainder by three."""
    return digit % 3


def read(node: Node, reader: Reader) -> tuple[ModularLine, ...]:
    """Paths of three cells or more, on a board of three digits or more."""
    digits = reader.board.digits
    if digits < 3:
        reader.problems.expected(node.place, f"{digits} digits", "three or more")
        return ()
    return tuple(ModularLine(path, digits) for path in read_lines(node, reader, 3))


def draw(board: Board, lines: Sequence[ModularLine]) -> tuple[Mark, ...]:
    """A trail each."""
    return tuple(Trail("modular-line", (line.cells,)) for line in lines)


def says(lines: Sequence[ModularLine]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("modular-line", len(lines)),)


RULE = Rule(
    name="modular-line",
    meaning="Each three cells in a row on the line leave three different remainders by three.",
    marks="a list of paths of three cells or more",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Three steps
kind: sudoku
size: 6
rules:
  modular-line:
    - r1c2 s sw s s
    - r6c5 n ne n n
    - r1c4 e se s
    - r6c3 w nw n
givens: |
  2 . 1 | . . .
  . . . | . . .
  -------------
  . . 3 | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | 1 . .
""",
)
