"""Palindromes: the line reads the same from both ends."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.marks import Mark, Trail
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, digits_of
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rule import Rule, Saying
from verify.rules.workings.lines import read_lines


@dataclass(frozen=True, slots=True)
class Palindrome:
    """The digits along the cells are the same from either end."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """A digit of a cell stands in its mirror cell as well."""
        for cell, mirror in zip(self.cells, reversed(self.cells), strict=True):
            if cell != mirror:
                for digit in digits_of(formula.pencil[cell]):
                    formula.implies(formula.literal(cell, digit), [formula.literal(mirror, digit)])

    def holds(self, grid: Grid) -> bool:
        """Forwards as backwards."""
        line = [grid[cell] for cell in self.cells]
        return line == line[::-1]

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that the mirror cell does not have."""
        for cell, mirror in zip(self.cells, reversed(self.cells), strict=True):
            struck = pencil[cell] & ~pencil[mirror]
            if struck:
                yield Strike(((cell, struck),), (mirror,))

    def moved(self, move: Move) -> "Palindrome":
        """The cells moved."""
        return Palindrome(move.all(self.cells))


def read(node: Node, reader: Reader) -> tuple[Palindrome, ...]:
    """Paths of two cells or more."""
    return tuple(map(Palindrome, read_lines(node, reader)))


def draw(board: Board, palindromes: Sequence[Palindrome]) -> tuple[Mark, ...]:
    """A plain trail each."""
    return tuple(Trail("palindrome", (line.cells,)) for line in palindromes)


def says(palindromes: Sequence[Palindrome]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("palindrome", len(palindromes)),)


RULE = Rule(
    name="palindrome",
    meaning="The line reads the same from both ends.",
    marks="a list of paths",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.RELABEL, Disguise.REVERSE}),
    example="""\
title: Still water
kind: sudoku
size: 6
rules:
  palindrome:
    - r1c2 s e s se s e s
    - r1c4 2se
    - r4c1 2se
givens: |
  . . . | . . 5
  . . . | . . .
  -------------
  4 . 2 | . . .
  . . . | . . .
  -------------
  . . . | 3 . 2
  . . 1 | . . .
""",
)
