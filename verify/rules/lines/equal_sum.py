"""Equal sums: boxes part the line, and the digits of each part sum to the same."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial, reduce
from math import comb
from operator import and_, or_
from typing import Final

from verify.board import Board, Cell
from verify.facets import Facets, equal_parts, every_pair
from verify.formula.formula import Formula, Literal
from verify.formula.scan import Scan, diagram_to_ends, scan_survivors
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, bit, digits_of
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.node import Place
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import count_of, fitting, trails, unkept
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.selection import MOST_SELECTED, select_set
from verify.rules.workings.sums import (
    Sums,
    digit_sets,
    largest_sum,
    least_sum,
    sum_survivors,
    sums_of,
)

MOST_APART: Final = 3
"""Cells of a part whose candidates are struck set by set; in larger parts only by their sums."""


@dataclass(frozen=True, slots=True)
class EqualSum:
    """The digits of each part sum to the same.

    `parts` are the cells of the line box by box. As each part lies within one box its digits
    differ: the mark counts on that, for it says which sums a part can have.
    """

    cells: tuple[Cell, ...]
    parts: tuple[tuple[Cell, ...], ...]

    def clauses(self, formula: Formula) -> None:
        """A literal for each sum: one of them is the sum of all parts. See `_ways`."""
        lengths = [len(part) for part in self.parts]
        low = max(map(least_sum, lengths))
        high = min(largest_sum(length, formula.digits) for length in lengths)
        common = {total: formula.fresh() for total in range(low, high + 1)}
        formula.some(common.values())
        for part in self.parts:
            ways = _ways(formula, part, low, high)
            for total, literal in common.items():
                formula.implies(literal, ways.get(total, ()))
                for way in ways.get(total, ()):
                    formula.implies(way, [literal])

    def holds(self, grid: Grid) -> bool:
        """No digit twice in a part, and one sum for all parts."""
        parts = [[grid[cell] for cell in part] for part in self.parts]
        return all(len(set(part)) == len(part) for part in parts) and len(set(map(sum, parts))) == 1

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no sum which every part can have."""
        common = reduce(and_, (_sums(part, pencil) for part in self.parts))
        return unkept(
            dict(pair for part in self.parts for pair in _survivors(part, pencil, common)), pencil
        )

    def moved(self, move: Move) -> "EqualSum":
        """The cells moved."""
        return EqualSum(move.all(self.cells), tuple(map(move.all, self.parts)))

    def facets(self, digits: int) -> Facets:
        """The cells of a part differ, and every two parts are equal."""
        pairs = (pair for part in self.parts for pair in every_pair(part))
        return replace(equal_parts(self.parts), pairs=tuple(pairs))


def _ways(
    formula: Formula, part: tuple[Cell, ...], low: int, high: int
) -> dict[int, list[Literal]]:
    """For each sum between the bounds, literals of which one holds just where the part has it.

    Digit sets where they are few: a solver then needs a tenth of the conflicts.
    """
    length, digits = len(part), formula.digits
    if comb(digits, length) > MOST_SELECTED:
        formula.distinct(part)
        return {total: [end] for total, end in formula.outcomes(_summing(part, low, high)).items()}
    totals = range(low, high + 1)
    sets = [chosen for total in totals for chosen in digit_sets(length, total, digits) or ()]
    ways: dict[int, list[Literal]] = {}
    for literal, chosen in select_set(formula, part, sets):
        ways.setdefault(sum(digits_of(chosen)), []).append(literal)
    return ways


def _summing(part: tuple[Cell, ...], low: int, high: int) -> Scan[int]:
    """The scan whose note is the sum so far, and which ends between these bounds."""

    def step(so_far: int, _: int, digit: int) -> int | None:
        return so_far + digit if so_far + digit <= high else None

    return Scan(part, 0, step, lambda total: total >= low)


def _different(part: tuple[Cell, ...], allowed: Sums) -> Scan[Mask]:
    """The scan whose note is the set of digits so far, none twice, with an allowed sum."""

    def step(used: Mask, _: int, digit: int) -> Mask | None:
        return None if used >> digit & 1 else used | bit(digit)

    return Scan(part, 0, step, lambda used: bool(allowed >> sum(digits_of(used)) & 1))


def _sums(part: tuple[Cell, ...], pencil: Pencil) -> Sums:
    """The sums of different digits that a small part can have; of a larger one, no fewer."""
    if len(part) <= MOST_APART:
        _, sets = diagram_to_ends(_different(part, -1), pencil)
        return reduce(or_, (bit(sum(digits_of(digits))) for digits in sets.values()), 0)
    found = list(digits_of(reduce(or_, (pencil[cell] for cell in part))))
    low, high = sum(found[: len(part)]), sum(found[-len(part) :])
    return sums_of([(cell, 1) for cell in part], pencil) & (2 << high) - (1 << low)


def _survivors(
    part: tuple[Cell, ...], pencil: Pencil, allowed: Sums
) -> Iterator[tuple[Cell, Mask]]:
    """For each cell, the candidates that stand in some allowed sum of its part."""
    if len(part) <= MOST_APART:
        yield from scan_survivors(_different(part, allowed), pencil)
    else:
        yield from sum_survivors([(cell, 1) for cell in part], pencil, allowed)


@lru_cache(maxsize=4)
def _box_of(board: Board) -> dict[Cell, int]:
    """The box of each cell; some thousands of lines ask for it."""
    return {cell: box for box, cells in enumerate(board.box_blocks()) for cell in cells}


def parted(board: Board, line: Sequence[Cell]) -> tuple[tuple[Cell, ...], ...]:
    """The cells of a line box by box, in the order in which it comes to the boxes.

    A line that comes back to a box has one part there: all of its cells in that box.
    """
    box_of = _box_of(board)
    parts: dict[int, list[Cell]] = {}
    for cell in line:
        parts.setdefault(box_of[cell], []).append(cell)
    return tuple(map(tuple, parts.values()))


def make(paths: Several[Cells], reader: Reader) -> tuple[EqualSum, ...]:
    """Paths through two boxes or more, on a board that has boxes."""
    if reader.board.boxes is None:
        reader.problems.expected(paths.place, "equal sums on a board without boxes", "boxes")
        return ()
    lines = []
    for path in fitting(paths, reader):
        parts = parted(reader.board, path.value)
        if _can_be(parts, path.place, reader):
            lines.append(EqualSum(path.value, parts))
    return tuple(lines)


def _can_be(parts: Sequence[Sequence[Cell]], place: Place, reader: Reader) -> bool:
    """Whether there are two parts or more, and a sum that each of them can have."""
    if len(parts) < 2:
        expected = "one that passes two boxes or more"
        reader.problems.expected(place, "a line within one box", expected)
        return False
    long, short = max(map(len, parts)), min(map(len, parts))
    least, largest = least_sum(long), largest_sum(short, reader.board.digits)
    if least > largest:
        found = (
            f"{count_of(long)} in one box, which sum to {least} or more, and {count_of(short)} in"
            f" another, at most {largest}"
        )
        expected = "cells that can sum to the same in each box"
        reader.problems.expected(place, found, expected)
    return least <= largest


RULE = Rule(
    name="equal-sum",
    meaning="The digits on the line sum to the same in each box that it passes.",
    marks="a list of paths",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "equal-sum"),
    says=partial(one_sentence, "equal-sum"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Spring tide
kind: sudoku
size: 6
rules:
  equal-sum:
    - r1c4 s sw nw n
    - r3c5 ne nw
    - r3c2 s sw s
    - r6c6 4w
givens: |
  . . 2 | . . .
  . . . | . . .
  -------------
  5 . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
