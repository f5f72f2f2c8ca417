"""Entropic lines: a low, a middle and a high digit in each three cells in a row."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from verify.board import Cell
from verify.facets import Facets, every_pair
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, every_digit
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import fitting_cells, trails
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.three_kinds import Kinds, kinds_clauses, kinds_strikes


@dataclass(frozen=True, slots=True)
class EntropicLine:
    """Each three cells in a row hold a digit of each third of the `digits` of the board."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """One order of the three thirds repeats along the line."""
        kinds_clauses(formula, self.cells, _thirds(self.digits))

    def holds(self, grid: Grid) -> bool:
        """Every three cells in a row lie in three different thirds."""
        third = self.digits // 3
        line = [(grid[cell] - 1) // third for cell in self.cells]
        return all({*line[at : at + 3]} == {0, 1, 2} for at in range(len(line) - 2))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates whose third their cell has in no order of the three that fits the line."""
        return kinds_strikes(self.cells, _thirds(self.digits), pencil)

    def moved(self, move: Move) -> "EntropicLine":
        """The cells moved; low and high change places where the order is turned about."""
        return EntropicLine(move.all(self.cells), self.digits)

    def facets(self, digits: int) -> Facets:
        """Cells of different thirds differ."""
        return Facets(pairs=every_pair(self.cells, 3))


def _thirds(digits: int) -> Kinds:
    """The low, the middle and the high digits."""
    third = digits // 3
    low = every_digit(third)
    return low, low << third, low << 2 * third


def make(paths: Several[Cells], reader: Reader) -> tuple[EntropicLine, ...]:
    """Paths of three cells or more, on a board whose digits part into equal thirds."""
    digits = reader.board.digits
    if digits % 3:
        found = f"entropic lines on a board of {digits} digits"
        expected = "a number of digits that parts into three equal thirds"
        reader.problems.expected(paths.place, found, expected)
    lines = fitting_cells(paths, reader, least=3)
    return tuple(EntropicLine(line, digits) for line in lines)


RULE = Rule(
    name="entropic-line",
    meaning="Each three cells in a row on the line hold a low, a middle and a high digit.",
    marks="a list of paths of three cells or more, where the digits part into equal thirds",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "entropic-line"),
    says=partial(one_sentence, "entropic-line"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Reed ladders
kind: sudoku
size: 6
rules:
  entropic-line:
    - r1c2 se 2e ne
    - r4c4 nw w nw n
    - r5c1 3e ne n
    - r6c3 3e
givens: |
  . . . | . . .
  . . 2 | . . .
  -------------
  . . . | . . .
  . . . | . 4 .
  -------------
  . . . | 6 . .
  . . . | . . .
""",
)
