"""X-sums: the first digit says how many cells, itself among them, sum to the number outside."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from verify.board import Cell, Outside
from verify.formula.formula import Formula
from verify.formula.scan import Scan
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, bit, digits_of
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.outside_clues import (
    NUMBERS,
    Numbers,
    bounded,
    strikes_but,
    totals_outside,
)
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.sums import largest_sum, sum_survivors, sums_of


@dataclass(frozen=True, slots=True)
class XSum:
    """With N in the first cell, the first N cells sum to `total`; N is no more than all cells."""

    cells: tuple[Cell, ...]
    outside: Outside
    total: int

    def clauses(self, formula: Formula) -> None:
        """A scan that asks the first cell last.

        Going through the others, it notes what the sum would be if the line were to stop here:
        as many as were passed, for the first cell, and their digits. That grows with every cell,
        so it meets the total at one count at most, and the first cell must hold that count. Thus
        no state needs to tell both a count and a sum.
        """
        formula.scan(self.note(formula.pencil))

    def note(self, pencil: Pencil) -> Scan[int]:
        """The same scan."""
        others_first = self.cells[1:] + self.cells[:1]
        start = -1 if self.total == 1 else 1
        return Scan(others_first, start, self._step, lambda state: state < 0)

    def _step(self, state: int, index: int, digit: int) -> int | None:
        """The sum if the line stopped here; once that is the total, the count below 0."""
        if index == len(self.cells) - 1:
            return state if state == -digit else None
        if state < 0:
            return state
        stopped = state + digit + 1
        if stopped == self.total:
            return -(index + 2)
        return stopped if stopped < self.total else None

    def holds(self, grid: Grid) -> bool:
        """As many cells as the first digit says sum to `total`."""
        line = [grid[cell] for cell in self.cells]
        return line[0] <= len(line) and sum(line[: line[0]]) == self.total

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit no candidate of the first cell."""
        first = self.cells[0]
        kept = dict.fromkeys(self.cells, 0)
        for count in digits_of(pencil[first]):
            others, left = self.cells[1:count], self.total - count
            terms = [(cell, 1) for cell in others]
            if count > len(self.cells) or left < 0 or not sums_of(terms, pencil) >> left & 1:
                continue
            kept[first] |= bit(count)
            if terms:
                for cell, digits in sum_survivors(terms, pencil, bit(left)):
                    kept[cell] |= digits
            for cell in self.cells[count:]:
                kept[cell] |= pencil[cell]
        return strikes_but(kept.items(), self.cells, pencil)

    def moved(self, move: Move) -> "XSum":
        """The line moved."""
        return XSum(move.all(self.cells), move.outside(self.outside), self.total)


def make(clues: Numbers, reader: Reader) -> tuple[XSum, ...]:
    """A mapping from places outside to sums."""

    def bounds(cells: int) -> tuple[int, int]:
        return 1, largest_x_sum(min(cells, reader.board.digits), reader.board.digits)

    sums = bounded(clues, reader, bounds, "an X-sum")
    return tuple(XSum(line.cells, line.outside, total) for line, total in sums)


def largest_x_sum(cells: int, digits: int) -> int:
    """The largest X-sum of a line of different digits: that of all its cells.

    Their number stands first: beside the largest other digits, or as one of the largest.
    """
    return min(largest_sum(cells, digits), cells + largest_sum(cells - 1, digits))


RULE = Rule(
    name="x-sum",
    meaning="The first digit says how many cells, from there on, sum to the number outside.",
    marks="a mapping from places outside to sums",
    grammar=NUMBERS,
    make=make,
    draw=partial(totals_outside, "outside"),
    says=partial(one_sentence, "x-sum"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Bale tally
kind: sudoku
size: 6
rules:
  x-sum:
    top c1: 21
    top c3: 5
    top c4: 14
    bottom c2: 20
    bottom c5: 17
    left r2: 19
    left r5: 9
    right r1: 15
    right r3: 21
    right r6: 9
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
