"""Sandwiches: the digits between 1 and the largest digit sum to the number outside.

A line makes a sandwich where it holds exactly one 1 and exactly one largest digit. Where either
is missing or stands twice, as it can on a board whose lines may repeat digits, nothing is said to
lie between the two, and the line does not keep its clue.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from itertools import combinations
from typing import Final

from verify.board import Cell, Outside
from verify.formula.formula import Formula, Literal
from verify.formula.scan import Scan
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, bit
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.outside_clues import NUMBERS, Numbers, strikes_but, totals_outside
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.selection import MOST_SELECTED, choices, held_digits, none_outside
from verify.rules.workings.sums import digit_sets, largest_sum, sum_survivors, sums_of

_BEFORE: Final = -1
_BEHIND: Final = -2
"""States of the scan off the sandwich; inside it the state is the sum so far."""


@dataclass(frozen=True, slots=True)
class Sandwich:
    """One 1 and one `largest` digit along the cells, and this sum of all that lies between."""

    cells: tuple[Cell, ...]
    outside: Outside
    total: int
    largest: int

    def clauses(self, formula: Formula) -> None:
        """The filling is one of a few sets of digits, or a scan of the line sums it."""
        formula.stamp(_clauses, self.cells, self.total, self.largest)

    def note(self, pencil: Pencil) -> Scan[int]:
        """The sum so far inside the sandwich; the scan sees to it that each crust stands once."""
        return _note(self.cells, self.total, self.largest)

    def holds(self, grid: Grid) -> bool:
        """All between the 1 and the largest digit sums to `total`; each of these stands once."""
        line = [grid[cell] for cell in self.cells]
        if line.count(1) != 1 or line.count(self.largest) != 1:
            return False
        start, end = sorted((line.index(1), line.index(self.largest)))
        return sum(line[start + 1 : end]) == self.total

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that fit no pair of places for the 1 and the largest digit."""
        crusts = bit(1) | bit(self.largest)
        filling = [mask & ~crusts for mask in pencil]
        kept = dict.fromkeys(self.cells, 0)
        for start, end in combinations(range(len(self.cells)), 2):
            first, last = self.cells[start], self.cells[end]
            ends = _crusts_of(pencil[first], pencil[last], self.largest)
            off = self.cells[:start] + self.cells[end + 1 :]
            inside = [(cell, 1) for cell in self.cells[start + 1 : end]]
            if not any(ends) or not all(filling[cell] for cell in off):
                continue
            if not sums_of(inside, filling) >> self.total & 1:
                continue
            kept[first] |= ends[0]
            kept[last] |= ends[1]
            for cell in off:
                kept[cell] |= filling[cell]
            if inside:
                for cell, digits in sum_survivors(inside, filling, bit(self.total)):
                    kept[cell] |= digits
        yield from strikes_but(kept.items(), self.cells, pencil)

    def moved(self, move: Move) -> "Sandwich":
        """The line moved."""
        outside = move.outside(self.outside)
        return Sandwich(move.all(self.cells), outside, self.total, self.largest)


def _clauses(formula: Formula, cells: tuple[Cell, ...], total: int, largest: int) -> None:
    for crust in (1, largest):
        placed = [formula.literal(cell, crust) for cell in cells]
        formula.some(placed)
        for one, other in combinations(placed, 2):
            formula.not_all(one, other)
    sets = _fillings(len(cells) - 2, total, largest) if formula.apart(cells) else None
    if sets is None:
        formula.scan(_note(cells, total, largest))
    else:
        _select(formula, cells, sets, largest)


@lru_cache(maxsize=512)
def _fillings(most: int, total: int, largest: int) -> tuple[Mask, ...] | None:
    """The sets of up to so many different digits with the sum; None where there are too many."""
    found: list[Mask] = []
    for count in range(min(most, largest - 2) + 1):
        sets = digit_sets(count, total, largest - 1)
        if sets is None:
            return None
        found += [digits for digits in sets if not digits & bit(1)]
    return tuple(found) if len(found) <= MOST_SELECTED else None


def _select(formula: Formula, cells: tuple[Cell, ...], sets: Sequence[Mask], largest: int) -> None:
    """A literal for each two places of the crusts, which say which cells are inside.

    A digit stands inside just where the chosen set holds it, and there are as many cells inside as
    it has digits.
    """
    chosen = choices(formula, sets)
    sizes = {digits.bit_count() for digits in sets}
    ends = {
        (start, end): formula.fresh()
        for start, end in combinations(range(len(cells)), 2)
        if end - start - 1 in sizes
    }
    for size in sizes:
        wide = [literal for (start, end), literal in ends.items() if end - start - 1 == size]
        of_size = [literal for literal, digits in chosen if digits.bit_count() == size]
        for one, others in ((wide, of_size), (of_size, wide)):
            for literal in one:
                formula.implies(literal, others)
    inside = _between(formula, cells, ends, largest)
    for digit, held in held_digits(formula, chosen).items():
        if digit not in (1, largest):
            formula.implies(held, [formula.literal(cell, digit) for cell in cells])
            none_outside(formula, digit, held, zip(cells, inside, strict=True))


def _between(
    formula: Formula, cells: Sequence[Cell], ends: Mapping[tuple[int, int], Literal], largest: int
) -> list[Literal]:
    """For each cell, the literal that says that it is inside; `ends` are where the crusts are."""
    inside = []
    for place, cell in enumerate(cells):
        crusts = formula.chosen(cell, bit(1) | bit(largest))
        here = [literal for pair, literal in ends.items() if place in pair]
        for one, others in ((here, crusts), (crusts, here)):
            for literal in one:
                formula.implies(literal, others)
        within = formula.fresh()
        covering = [literal for (start, end), literal in ends.items() if start < place < end]
        formula.implies(within, covering)
        for (start, end), literal in ends.items():
            if place not in (start, end):
                formula.implies(literal, [within if start < place < end else -within])
        inside.append(within)
    return inside


def _note(cells: tuple[Cell, ...], total: int, largest: int) -> Scan[int]:
    def step(state: int, index: int, digit: int) -> int | None:
        if digit in (1, largest):
            if state == _BEFORE:
                return 0
            return _BEHIND if state == total else None
        if state < 0:
            return state
        return state + digit if state + digit <= total else None

    return Scan(cells, _BEFORE, step, lambda state: state == _BEHIND)


def _crusts_of(one: Mask, other: Mask, largest: int) -> tuple[Mask, Mask]:
    """What two cells keep as the two crusts, in either order; nothing where they can't be."""
    kept_one = kept_other = 0
    for here, there in ((1, largest), (largest, 1)):
        if one >> here & 1 and other >> there & 1:
            kept_one |= bit(here)
            kept_other |= bit(there)
    return kept_one, kept_other


def make(clues: Numbers, reader: Reader) -> tuple[Sandwich, ...]:
    """Sums that a sandwich can have, on lines with room for both crusts."""
    sandwiches, digits = [], reader.board.digits
    for line, clue in clues.value:
        if len(line.cells) < 2:
            found = f"a sandwich on a line of {len(line.cells)} cell"
            reader.problems.expected(clue.place, found, "a line of two cells or more")
            continue
        largest = _largest_filling(len(line.cells), digits)
        total = reader.whole(clue.value, 0, largest, "the sum of a sandwich")
        if total is not None:
            sandwiches.append(Sandwich(line.cells, line.outside, total, digits))
    return tuple(sandwiches)


def _largest_filling(cells: int, digits: int) -> int:
    """The largest sum between crusts at both ends; digits stand again only where they must."""
    inside = cells - 2
    return largest_sum(inside, digits - 1) if cells <= digits else inside * (digits - 1)


RULE = Rule(
    name="sandwich",
    meaning="The digits between 1 and the largest digit sum to the number outside.",
    marks="a mapping from places outside to sums",
    grammar=NUMBERS,
    make=make,
    draw=partial(totals_outside, "outside"),
    says=partial(one_sentence, "sandwich"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Packed lunch
kind: sudoku
size: 6
rules:
  sandwich:
    top c1: 6
    top c3: 5
    top c4: 2
    top c6: 5
    left r1: 2
    left r2: 9
    left r4: 4
    left r5: 0
givens: |
  . 6 . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
