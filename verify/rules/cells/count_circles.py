"""Counting circles: a digit in a circle says how many of the circles hold it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from verify.board import Board, Cell
from verify.formula.formula import Formula, Literal
from verify.marks import Mark, Tint
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, bit
from verify.reading.grammar import GROUP, Cells, Placed
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.sums import Sums


@dataclass(frozen=True, slots=True)
class CountCircles:
    """Each digit stands in none of the cells, or in as many as it says."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """For each digit, a count that never goes past it and, once begun, comes up to it."""
        for digit in range(1, self.digits + 1):
            reached = [formula.true] + [-formula.true] * digit
            for cell in self.cells:
                placed = formula.literal(cell, digit)
                formula.not_all(placed, reached[digit])
                reached = _counted_on(formula, placed, reached)
            formula.implies(reached[1], [reached[digit]])

    def holds(self, grid: Grid) -> bool:
        """Each digit that is there is there as often as it says."""
        inside = [grid[cell] for cell in self.cells]
        return all(inside.count(digit) == digit for digit in inside)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that can't be used or have all their circles, and what else stands in theirs.

        The digits that are used sum to the number of circles.
        """
        every = range(1, self.digits + 1)
        able = {
            digit: [cell for cell in self.cells if pencil[cell] >> digit & 1] for digit in every
        }
        placed = {digit: sum(pencil[cell] == bit(digit) for cell in able[digit]) for digit in every}
        possible = [digit for digit in every if placed[digit] <= digit <= len(able[digit])]
        for digit in every:
            others = self._sums(possible, placed, but=digit)
            needed = placed[digit] > 0 or not others >> len(self.cells) & 1
            usable = digit in possible and others << digit >> len(self.cells) & 1
            if not usable:
                removes = [(cell, bit(digit)) for cell in able[digit]]
            elif placed[digit] == digit:
                removes = [(cell, bit(digit)) for cell in able[digit] if pencil[cell] != bit(digit)]
            elif needed and len(able[digit]) == digit:
                removes = [(cell, pencil[cell] & ~bit(digit)) for cell in able[digit]]
            else:
                continue
            strike = tuple((cell, struck) for cell, struck in removes if struck)
            if strike:
                yield Strike(strike, self.cells)

    def _sums(self, possible: Sequence[int], placed: Mapping[int, int], but: int) -> Sums:
        """The sums of digits that may be used beside one: of all that are placed, and of others."""
        sums: Sums = 1
        for digit in possible:
            if digit != but:
                sums = sums << digit | (0 if placed[digit] else sums)
        return sums

    def moved(self, move: Move) -> "CountCircles":
        """The cells moved."""
        return CountCircles(tuple(sorted(move.all(self.cells))), self.digits)


def _counted_on(formula: Formula, placed: Literal, reached: Sequence[Literal]) -> list[Literal]:
    """For each number, a literal that so many are reached once `placed` is counted too.

    `reached` has those from before; a Scan would have a clause for each other digit as well.
    """
    after = [formula.true]
    for fewer, so_many in pairwise(reached):
        literal = -formula.true if fewer == -formula.true else formula.fresh()
        formula.implies(so_many, [literal])
        formula.some((-placed, -fewer, literal))
        formula.implies(literal, [so_many, placed])
        formula.implies(literal, [so_many, fewer])
        after.append(literal)
    return after


def make(group: Placed[Cells], reader: Reader) -> tuple[CountCircles, ...]:
    """One constraint on all circles; some digits together must say how many there are."""
    cells, digits = group.value, reader.board.digits
    most = digits * (digits + 1) // 2
    if len(cells) > most:
        found = f"{len(cells)} circles"
        reader.problems.expected(group.place, found, f"at most {most}, the sum of all digits")
        return ()
    return (CountCircles(cells, digits),)


def draw(board: Board, counts: Sequence[CountCircles]) -> tuple[Mark, ...]:
    """A circle in each cell."""
    return tuple(Tint("count-circle", cell, "disc") for count in counts for cell in count.cells)


def says(counts: Sequence[CountCircles]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("count-circles", sum(len(count.cells) for count in counts)),)


RULE = Rule(
    name="count-circles",
    meaning="A digit in a circle says how many of the circles hold that digit.",
    marks="a group of cells",
    grammar=GROUP,
    make=make,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.SHUFFLE}),
    example="""\
title: Ripples
kind: sudoku
size: 6
rules:
  count-circles: r1c1 r1c6 r2c3 r3c2 r3c5 r4c2 r4c5 r5c4 r6c1 r6c6
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  5 . . | . . 3
  -------------
  4 5 . | . . 2
  . . . | . . .
""",
)
