"""Palindromes: the line reads the same from both ends."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from verify.board import Cell
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, digits_of
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import fitting_cells, trails
from verify.rules.workings.parts import one_sentence


@dataclass(frozen=True, slots=True)
class Palindrome:
    """The digits along the cells are the same from either end."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """A digit of a cell stands in its mirror cell as well."""
        formula.stamp(_mirrored, self.cells)

    def holds(self, grid: Grid) -> bool:
        """The digits read backwards are the same digits."""
        line = [grid[cell] for cell in self.cells]
        return line == line[::-1]

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that the mirror cell does not have."""
        for cell, mirror in zip(self.cells, reversed(self.cells), strict=True):
            struck = pencil[cell] & ~pencil[mirror]
            if struck:
                yield Strike(((cell, struck),), (mirror,))

    def moved(self, move: Move) -> "Palindrome":
        """The cells moved."""
        return Palindrome(move.all(self.cells))


def _mirrored(formula: Formula, cells: tuple[Cell, ...]) -> None:
    for cell, mirror in zip(cells, reversed(cells), strict=True):
        if cell != mirror:
            for digit in digits_of(formula.pencil[cell]):
                formula.implies(formula.literal(cell, digit), [formula.literal(mirror, digit)])


def make(paths: Several[Cells], reader: Reader) -> tuple[Palindrome, ...]:
    """Paths of two cells or more."""
    return tuple(map(Palindrome, fitting_cells(paths, reader)))


RULE = Rule(
    name="palindrome",
    meaning="The line reads the same from both ends.",
    marks="a list of paths",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "palindrome"),
    says=partial(one_sentence, "palindrome"),
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
