"""Modular lines: three cells in a row leave three different remainders when divided by 3."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Final

from verify.board import Cell
from verify.facets import Facets, every_pair
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, bit
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import fitting_cells, trails
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.three_kinds import Kinds, kinds_clauses, kinds_strikes

MODULUS: Final = 3


@dataclass(frozen=True, slots=True)
class ModularLine:
    """Each three cells in a row hold digits with different remainders when divided by 3.

    `digits` is how many digits the board has.
    """

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """One order of the three remainders repeats along the line."""
        kinds_clauses(formula, self.cells, _remainders(self.digits))

    def holds(self, grid: Grid) -> bool:
        """Every three cells in a row leave three different remainders."""
        line = [grid[cell] % MODULUS for cell in self.cells]
        return all(len({*line[at : at + 3]}) == 3 for at in range(len(line) - 2))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates whose remainder their cell has in no order of the three that fits the line."""
        return kinds_strikes(self.cells, _remainders(self.digits), pencil)

    def moved(self, move: Move) -> "ModularLine":
        """The cells moved; digits that differ modulo 3 do so when their order is turned about."""
        return ModularLine(move.all(self.cells), self.digits)

    def facets(self, digits: int) -> Facets:
        """Cells with different remainders differ."""
        return Facets(pairs=every_pair(self.cells, 3))


def _remainders(digits: int) -> Kinds:
    """The digits that leave the remainders 1, 2 and 0 when divided by 3."""
    one, two, none = (
        sum(map(bit, range(first, digits + 1, MODULUS))) for first in range(1, MODULUS + 1)
    )
    return one, two, none


def make(paths: Several[Cells], reader: Reader) -> tuple[ModularLine, ...]:
    """Paths of three cells or more, on a board with at least as many digits."""
    digits = reader.board.digits
    if digits < MODULUS:
        found = f"modular lines on a board of {digits} digits"
        reader.problems.expected(paths.place, found, f"{MODULUS} digits or more")
    lines = fitting_cells(paths, reader, least=3)
    return tuple(ModularLine(line, digits) for line in lines)


RULE = Rule(
    name="modular-line",
    meaning="Each three digits in a row on the line leave different remainders divided by 3.",
    marks="a list of paths of three cells or more",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "modular-line"),
    says=partial(one_sentence, "modular-line"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Rope walk
kind: sudoku
size: 6
rules:
  modular-line:
    - r1c4 e se s 2sw
    - r2c4 w nw w
    - r2c1 s se ne 2e
    - r6c5 w nw 2w
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . 4 | . . .
  -------------
  2 . . | 6 . .
  . . . | . . .
""",
)
