"""X-sums: the first digit says how many cells, itself among them, sum to the number outside."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from itertools import pairwise

from verify.board import Cell, Outside
from verify.formula.formula import Formula
from verify.formula.scan import Scan
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, bit, digits_of
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
from verify.rules.workings.selection import MOST_SELECTED, choices, held_digits, none_outside
from verify.rules.workings.sums import digit_sets, largest_sum, sum_survivors, sums_of


@dataclass(frozen=True, slots=True)
class XSum:
    """With N in the first cell, the first N cells sum to `total`; N is no more than all cells."""

    cells: tuple[Cell, ...]
    outside: Outside
    total: int

    def clauses(self, formula: Formula) -> None:
        """The digits that are summed are one of a few sets, or a scan of the line says it."""
        formula.stamp(_clauses, self.cells, self.total)

    def note(self, pencil: Pencil) -> Scan[int]:
        """A scan that asks the first cell last."""
        return _note(self.cells, self.total)

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


def _clauses(formula: Formula, cells: tuple[Cell, ...], total: int) -> None:
    sets = _sets(len(cells), total, formula.digits) if formula.apart(cells) else None
    if sets is None:
        formula.scan(_note(cells, total))
    else:
        _select(formula, cells, sets)


@lru_cache(maxsize=512)
def _sets(cells: int, total: int, digits: int) -> tuple[Mask, ...] | None:
    """The sets of digits that can be summed, each with the number of its digits among them.

    None where there are too many.
    """
    found: list[Mask] = []
    for count in range(1, min(cells, digits) + 1):
        sets = digit_sets(count, total, digits)
        if sets is None:
            return None
        found += [digits for digits in sets if digits >> count & 1]
    return tuple(found) if len(found) <= MOST_SELECTED else None


def _select(formula: Formula, cells: tuple[Cell, ...], sets: Sequence[Mask]) -> None:
    """A digit stands in the cells that are summed just where the chosen set holds it.

    So the set has as many digits as cells are summed.
    """
    first, *others = cells
    chosen = choices(formula, sets)
    for count in digits_of(formula.pencil[first]):
        counted = formula.literal(first, count)
        so_many = [literal for literal, digits in chosen if digits.bit_count() == count]
        formula.implies(counted, so_many)
        for literal in so_many:
            formula.implies(literal, [counted])
    # A literal for each cell: that it is summed, and with it those before.
    summed = [formula.true, *(formula.fresh() for _ in others)]
    for nearer, farther in pairwise(summed):
        formula.implies(farther, [nearer])
    for count in range(1, len(cells) + 1):
        counted = formula.literal(first, count)
        formula.implies(counted, [summed[count - 1]])
        if count < len(cells):
            formula.implies(counted, [-summed[count]])
    for digit, held in held_digits(formula, chosen).items():
        formula.implies(held, [formula.literal(cell, digit) for cell in cells])
        none_outside(formula, digit, held, zip(cells, summed, strict=True))


def _note(cells: tuple[Cell, ...], total: int) -> Scan[int]:
    """A scan that asks the first cell last.

    Going through the others, it notes what the sum would be if the line were to stop here: as
    many as were passed, for the first cell, and their digits. That grows with every cell, so it
    meets the total at one count at most, and the first cell must hold that count. Thus no state
    needs to tell both a count and a sum: once the sum is the total, the state is the count below 0.
    """

    def step(state: int, index: int, digit: int) -> int | None:
        if index == len(cells) - 1:
            return state if state == -digit else None
        if state < 0:
            return state
        stopped = state + digit + 1
        if stopped == total:
            return -(index + 2)
        return stopped if stopped < total else None

    start = -1 if total == 1 else 1
    return Scan(cells[1:] + cells[:1], start, step, lambda state: state < 0)


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
