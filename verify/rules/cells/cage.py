"""Cages: no digit twice, and the sum in the corner where there is one."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_
from typing import Annotated

from verify.board import Board, Cell
from verify.facets import Facets, Form, Group, Sum
from verify.formula.formula import Formula
from verify.marks import Cage as CageMark
from verify.marks import Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike
from verify.reading.grammar import GROUP, Cells, Entry, Listed, Part, Placed, Several, whole_from
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.caged import caged_apart, fitting_sets, off_other_cages
from verify.rules.workings.distinct import distinct_strikes
from verify.rules.workings.selection import MOST_SELECTED, select_set
from verify.rules.workings.sums import digit_sets, largest_sum, least_sum, sum_survivors
from verify.rules.workings.totals import total_clauses


@dataclass(frozen=True, slots=True)
class Cage:
    """Different digits in these cells, with this sum where it is not None."""

    cells: tuple[Cell, ...]
    total: int | None
    digits: int

    def clauses(self, formula: Formula) -> None:
        """Every two cells differ; the digits are one of the sets with the sum."""
        formula.stamp(_clauses, self.cells, self.total)

    def holds(self, grid: Grid) -> bool:
        """No digit stands twice, and all sum to `total` where there is one."""
        inside = [grid[cell] for cell in self.cells]
        return len(set(inside)) == len(inside) and self.total in (None, sum(inside))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits placed in another cell, and those of no set with the sum that fits the cells."""
        yield from distinct_strikes(self.cells, pencil)
        if self.total is None:
            return
        for cell, kept in self._survivors(self.total, pencil):
            struck = pencil[cell] & ~kept
            if struck:
                yield Strike(((cell, struck),), self.cells)

    def moved(self, move: Move) -> "Cage":
        """The cells moved, and the sum of what each digit becomes."""
        total = self.total
        if total is not None and move.reverses:
            total = len(self.cells) * (self.digits + 1) - total
        return Cage(tuple(sorted(move.all(self.cells))), total, self.digits)

    def facets(self, digits: int) -> Facets:
        """A group, and its sum where it has one; the mark says nothing else."""
        group = (Group("cage", self.cells),)
        if self.total is None:
            return Facets(group, all_by=Form.APART)
        return Facets(group, sums=(Sum(frozenset(self.cells), self.total),), all_by=Form.SUMS)

    def _survivors(self, total: int, pencil: Pencil) -> Iterator[tuple[Cell, Mask]]:
        sets = digit_sets(len(self.cells), total, self.digits)
        if sets is None:
            terms = [(cell, 1) for cell in self.cells]
            return sum_survivors(terms, pencil, 1 << total)
        together = reduce(or_, fitting_sets(sets, self.cells, pencil), 0)
        return ((cell, pencil[cell] & together) for cell in self.cells)


def _clauses(formula: Formula, cells: tuple[Cell, ...], total: int | None) -> None:
    sets = () if total is None else digit_sets(len(cells), total, formula.digits)
    if total is not None and sets is not None and len(sets) <= MOST_SELECTED:
        select_set(formula, cells, sets)
        return
    formula.distinct(cells)
    if total is not None:
        total_clauses(formula, dict.fromkeys(cells, 1), total)


@dataclass(frozen=True, slots=True)
class Written:
    """A cage as a manifest writes it."""

    cells: Annotated[Part[Cells], GROUP]
    sum: Annotated[Placed[Node] | None, whole_from(1)] = None


def make(cages: Several[Written], reader: Reader) -> tuple[Cage, ...]:
    """Cages that keep off each other."""
    found: list[Cage] = []
    taken: set[Cell] = set()
    for written in cages.value:
        cage = _cage(written.value, reader)
        if cage is not None and off_other_cages(cage.cells, taken, written.place, reader):
            found.append(cage)
            taken.update(cage.cells)
    return tuple(found)


def _cage(written: Written, reader: Reader) -> Cage | None:
    """One cage, whose sum different digits can have."""
    cells, digits = caged_apart(written.cells, reader), reader.board.digits
    if cells is None:
        return None
    if written.sum is None:
        return Cage(cells, None, digits)
    low, high = least_sum(len(cells)), largest_sum(len(cells), digits)
    what = f"the sum of {len(cells)} different digits"
    total = reader.whole(written.sum.value, low, high, what)
    return None if total is None else Cage(cells, total, digits)


def draw(board: Board, cages: Sequence[Cage]) -> tuple[Mark, ...]:
    """An outline with the sum as its label."""
    return tuple(
        CageMark("cage", cage.cells, "" if cage.total is None else str(cage.total))
        for cage in cages
    )


def says(cages: Sequence[Cage]) -> tuple[Saying, ...]:
    """One sentence for cages with a sum, one for those without."""
    plain = sum(cage.total is None for cage in cages)
    summed = len(cages) - plain
    keys = (("cage", summed), ("cage-plain", plain))
    return tuple(Saying(key, count) for key, count in keys if count)


RULE = Rule(
    name="cage",
    meaning="No digit stands twice in a cage; the digits sum to the number in its corner.",
    marks="a list of `{cells: GROUP, sum: N}`; the sum may be left out",
    grammar=Listed(Entry(Written), "a list of cages"),
    make=make,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Lock gates
kind: sudoku
size: 6
rules:
  cage:
    - {cells: r1c1..r1c2, sum: 7}
    - {cells: r2c1 r3c1 r3c2, sum: 12}
    - {cells: r1c4 r1c5 r2c4, sum: 13}
    - {cells: r2c6..r3c6, sum: 8}
    - {cells: r4c1..r5c1, sum: 5}
    - {cells: r4c3 r5c3 r5c4, sum: 10}
    - {cells: r4c5..r4c6, sum: 9}
    - {cells: r6c4..r6c6, sum: 9}
givens: |
  . . . | 4 . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
