"""Arrows: the digits on the shaft sum to the circled number."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from verify.board import Cell
from verify.facets import Facets, Form, equal_sides
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.arrow_shapes import (
    ARROWS,
    Arrows,
    arrows_say,
    draw_arrows,
    number_terms,
    shapes,
    total_stays,
)
from verify.rules.workings.selection import MOST_SELECTED, Choice, select_choice
from verify.rules.workings.sums import choices_up_to, sum_survivors, sums_of
from verify.rules.workings.totals import total_clauses

MOST_CHOSEN: Final = 4
"""Cells of a shaft that may get a literal for each choice of their digits."""


@dataclass(frozen=True, slots=True)
class Arrow:
    """The digits of `shaft` sum to the number that the cells of `total` make."""

    total: tuple[Cell, ...]
    shaft: tuple[Cell, ...]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The circled cells, then the shaft."""
        return self.total + self.shaft

    def clauses(self, formula: Formula) -> None:
        """A literal for each choice of digits on a short shaft; else the difference is 0."""
        choices: Sequence[Choice] = ()
        if len(self.total) == 1 and len(self.shaft) <= MOST_CHOSEN:
            choices = choices_up_to(len(self.shaft), formula.digits, formula.digits)
        if 0 < len(choices) <= MOST_SELECTED:
            formula.stamp(_choose, self.cells, choices)
        else:
            weights = dict.fromkeys(self.shaft, 1)
            weights.update((cell, -weight) for cell, weight in number_terms(self.total))
            total_clauses(formula, weights, 0)

    def holds(self, grid: Grid) -> bool:
        """The digits of the shaft sum to the number in the circle."""
        number = int("".join(str(grid[cell]) for cell in self.total))
        return sum(grid[cell] for cell in self.shaft) == number

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates in no choice of digits where shaft and circle are equal."""
        total, shaft = number_terms(self.total), [(cell, 1) for cell in self.shaft]
        equal = sums_of(total, pencil) & sums_of(shaft, pencil)
        for terms in (total, shaft):
            for cell, kept in sum_survivors(terms, pencil, equal):
                struck = pencil[cell] & ~kept
                if struck:
                    yield Strike(((cell, struck),), self.cells)

    def moved(self, move: Move) -> "Arrow":
        """The cells moved."""
        return Arrow(move.all(self.total), move.all(self.shaft))

    def facets(self, digits: int) -> Facets:
        """Shaft and total are equal; a digit that sums up several is larger than each."""
        sides = [(cell, 1) for cell in self.shaft], number_terms(self.total)
        is_larger = len(self.total) == 1 < len(self.shaft)
        rises = tuple((cell, self.total[0]) for cell in self.shaft) if is_larger else ()
        return Facets(sums=tuple(equal_sides(*sides)), rises=rises, all_by=Form.SUMS)


def _choose(formula: Formula, cells: tuple[Cell, ...], choices: Sequence[Choice]) -> None:
    """The chosen digits of the shaft say what is in the circle, and that which they are."""
    total, *shaft = cells
    ways = select_choice(formula, shaft, choices)
    for digit in range(1, formula.digits + 1):
        here = [literal for literal, choice in ways if sum(choice) == digit]
        formula.implies(formula.literal(total, digit), here)
        for literal in here:
            formula.implies(literal, [formula.literal(total, digit)])


def make(arrows: Placed[Arrows], reader: Reader) -> tuple[Arrow, ...]:
    """Arrows, none with more cells on its shaft than one circled digit can be their sum."""
    sound = []
    digits = reader.board.digits
    for place, shape in shapes(arrows, reader):
        if len(shape.total) == 1 and len(shape.shaft) > digits:
            found = f"a shaft of {len(shape.shaft)} cells"
            expected = f"at most {digits}, the largest circled digit"
            reader.problems.expected(place, found, expected)
        else:
            sound.append(Arrow(shape.total, shape.shaft))
    return tuple(sound)


RULE = Rule(
    name="arrow",
    meaning="The digits on the shaft sum to the digit in the circle.",
    marks="a list of paths from the circle, or of `{total: PATH, shaft: PATH}`",
    grammar=ARROWS,
    make=make,
    draw=partial(draw_arrows, "arrow"),
    says=partial(arrows_say, "arrow"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Two currents
kind: sudoku
size: 6
rules:
  arrow:
    - r3c1 e se
    - r2c5 sw w
    - {total: r6c1 e, shaft: r5c3 ne e}
givens: |
  . . . | . . 6
  . . 4 | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . 2 | . . .
  . . . | . . .
""",
    stays=total_stays,
)
