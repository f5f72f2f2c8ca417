"""Parity lines: odd and even take turns."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from typing import Final

from verify.board import LARGEST_SIZE, Cell
from verify.facets import Facets, every_pair
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, digits_of
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import fitting_cells, trails, unkept
from verify.rules.workings.parity import of_parity
from verify.rules.workings.parts import one_sentence

EVEN: Final = of_parity(LARGEST_SIZE, 0)
ODD: Final = of_parity(LARGEST_SIZE, 1)


@dataclass(frozen=True, slots=True)
class ParityLine:
    """Of each two neighbours among the cells one holds an odd digit, the other an even one."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """A fresh literal for an odd first cell; it settles the parity of all other cells."""
        odd = formula.fresh()
        for cell in self.cells:
            for remainder, way in enumerate((-odd, odd)):
                digits = (d for d in digits_of(formula.pencil[cell]) if d % 2 == remainder)
                placed = [formula.literal(cell, digit) for digit in digits]
                formula.implies(way, placed)
                for literal in placed:
                    formula.implies(literal, [way])
            odd = -odd

    def holds(self, grid: Grid) -> bool:
        """The sum of each two neighbours is odd."""
        return all((grid[one] + grid[other]) % 2 == 1 for one, other in pairwise(self.cells))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates of a parity that fits neither an odd first cell nor an even one."""
        kept = dict.fromkeys(self.cells, 0)
        for turns in ((ODD, EVEN), (EVEN, ODD)):
            way = [pencil[cell] & turns[index % 2] for index, cell in enumerate(self.cells)]
            if all(way):
                for cell, mask in zip(self.cells, way, strict=True):
                    kept[cell] |= mask
        return unkept(kept, pencil)

    def moved(self, move: Move) -> "ParityLine":
        """The cells moved; where digits are reversed, all keep their parity or all change it."""
        return ParityLine(move.all(self.cells))

    def facets(self, digits: int) -> Facets:
        """Cells an odd number of steps apart differ."""
        return Facets(pairs=every_pair(self.cells, 2))


def make(paths: Several[Cells], reader: Reader) -> tuple[ParityLine, ...]:
    """Paths of two cells or more."""
    return tuple(map(ParityLine, fitting_cells(paths, reader)))


RULE = Rule(
    name="parity-line",
    meaning="Odd and even digits alternate along the line.",
    marks="a list of paths",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "parity-line"),
    says=partial(one_sentence, "parity-line"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Heron steps
kind: sudoku
size: 6
rules:
  parity-line:
    - r1c1 e se s e ne e
    - r2c1 s se s se 3e
    - r3c6 2s w nw
    - r1c4 2e
givens: |
  . . . | . . .
  . . . | . . 6
  -------------
  . . . | . . 1
  . . . | . . .
  -------------
  5 . . | . . .
  . . . | 2 . .
""",
)
