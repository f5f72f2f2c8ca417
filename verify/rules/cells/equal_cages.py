"""Cages of one group: no digit twice in a cage, and one sum for all cages of the group."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial, reduce
from math import comb
from operator import and_, or_
from typing import Final, Self

from verify.board import Board, Cell
from verify.facets import Facets, Group, equal_parts
from verify.formula.formula import Formula
from verify.formula.scan import Scan
from verify.marks import Cage, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, highest
from verify.reading.grammar import GROUP, Cells, Listed, Part, Several, Together
from verify.reading.node import Place
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.caged import caged_apart, fitting_sets, off_other_cages
from verify.rules.workings.distinct import distinct_strikes
from verify.rules.workings.lettered import letter
from verify.rules.workings.parts import one_sentence
from verify.rules.workings.sums import (
    Sums,
    Terms,
    largest_sum,
    least_sum,
    sum_survivors,
    sums_of,
    sums_of_sets,
)

MOST_SETS: Final = 250
"""Digit sets of one cage looked through at each strike; past that its digits may repeat there."""

MOST_REMEMBERED: Final = 20_000
"""Marks of cages whose sets are remembered: a walk asks for the same ones very often."""


TWO_OR_MORE: Final = "a list of two cages or more"


@dataclass(frozen=True, slots=True)
class EqualCages:
    """No digit stands twice in a cage, and all the cages have one sum."""

    cages: tuple[tuple[Cell, ...], ...]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The cells of all cages."""
        return tuple(cell for cage in self.cages for cell in cage)

    def clauses(self, formula: Formula) -> None:
        """A literal for each sum of each cage, and equal literals for one sum in all cages."""
        for cage in self.cages:
            formula.distinct(cage)
        sums = [formula.outcomes(_sum_of(cage)) for cage in self.cages]
        for here, there in zip(sums, sums[1:] + sums[:1], strict=True):
            for total, literal in here.items():
                formula.implies(literal, [there[total]] if total in there else [])

    def holds(self, grid: Grid) -> bool:
        """No digit twice in a cage, and one sum for all of them."""
        inside = [[grid[cell] for cell in cage] for cage in self.cages]
        return (
            all(len(set(cage)) == len(cage) for cage in inside) and len(set(map(sum, inside))) == 1
        )

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Placed digits, and what stands in no choice with a sum that all cages can have."""
        for cage in self.cages:
            yield from distinct_strikes(cage, pencil)
        every = [_Choices.of(cage, pencil) for cage in self.cages]
        equal = reduce(and_, (choices.sums() for choices in every))
        for choices in every:
            for cell, kept in choices.survivors(equal):
                if pencil[cell] & ~kept:
                    yield Strike(((cell, pencil[cell] & ~kept),), self.cells)

    def moved(self, move: Move) -> "EqualCages":
        """The cells moved."""
        return EqualCages(tuple(tuple(sorted(move.all(cage))) for cage in self.cages))

    def facets(self, digits: int) -> Facets:
        """Each cage is a group, and every two are equal."""
        groups = tuple(Group("cage", cage) for cage in self.cages)
        return replace(equal_parts(self.cages), groups=groups)


def _sum_of(cells: tuple[Cell, ...]) -> Scan[int]:
    """The scan whose state is the sum so far."""
    return Scan(cells, 0, lambda so_far, index, digit: so_far + digit, lambda so_far: True)


@dataclass(frozen=True, slots=True)
class _Choices:
    """What a cage can hold: the sums of its sets of different digits, and for each the digits.

    Any digits at all where `sets` is None.
    """

    cage: tuple[Cell, ...]
    pencil: Pencil
    sets: tuple[Sums, Mapping[int, Mask]] | None

    @classmethod
    def of(cls, cage: tuple[Cell, ...], pencil: Pencil) -> Self:
        """The sets that the marks leave, where there are few enough to look through."""
        masks = tuple(pencil[cell] for cell in cage)
        digits = highest(reduce(or_, masks) | 1)
        many = comb(digits, len(cage)) > MOST_SETS
        return cls(cage, pencil, None if many else _sets_by_sum(masks, digits))

    def sums(self) -> Sums:
        """Every sum that the cage can have."""
        if self.sets is None:
            return sums_of(self._terms(), self.pencil)
        return self.sets[0]

    def survivors(self, allowed: Sums) -> Iterator[tuple[Cell, Mask]]:
        """For each cell, the candidates that stand in some choice whose sum is allowed."""
        if self.sets is None:
            return sum_survivors(self._terms(), self.pencil, allowed)
        together = 0
        for total, held in self.sets[1].items():
            if allowed >> total & 1:
                together |= held
        return ((cell, self.pencil[cell] & together) for cell in self.cage)

    def _terms(self) -> Terms:
        return [(cell, 1) for cell in self.cage]


@lru_cache(maxsize=MOST_REMEMBERED)
def _sets_by_sum(masks: tuple[Mask, ...], digits: int) -> tuple[Sums, Mapping[int, Mask]]:
    """The sums of different digits up to `digits` that fit the marks, and all digits of each."""
    sums, found = sums_of_sets(len(masks), digits), dict[int, Mask]()
    for chosen in fitting_sets(sums, range(len(masks)), masks):
        found[sums[chosen]] = found.get(sums[chosen], 0) | chosen
    return sum(1 << total for total in found), found


def make(groups: Several[tuple[Part[Cells], ...]], reader: Reader) -> tuple[EqualCages, ...]:
    """Groups of two cages or more that keep off each other."""
    found = []
    taken: set[Cell] = set()
    for group in groups.value:
        if len(group.value) < 2:
            reader.problems.expected(group.place, "a list", TWO_OR_MORE)
            continue
        cages = [_cage(part, taken, reader) for part in group.value]
        whole = tuple(cage for cage in cages if cage is not None)
        if len(whole) == len(cages) and _can_be(whole, group.place, reader):
            found.append(EqualCages(whole))
    return tuple(found)


def _cage(part: Part[Cells], taken: set[Cell], reader: Reader) -> Cells | None:
    """One cage; its cells are taken from then on."""
    cells = caged_apart(part, reader)
    if cells is None or not off_other_cages(cells, taken, part.place, reader):
        return None
    taken.update(cells)
    return cells


def _can_be(cages: Sequence[Cells], place: Place, reader: Reader) -> bool:
    """Whether the least sum of the largest cage is no more than the largest of the smallest."""
    counts = sorted(map(len, cages))
    if least_sum(counts[-1]) <= largest_sum(counts[0], reader.board.digits):
        return True
    found = f"cages of {counts[0]} and of {counts[-1]} cells"
    reader.problems.expected(place, found, "cages that can have one sum")
    return False


def draw(board: Board, groups: Sequence[EqualCages]) -> tuple[Mark, ...]:
    """Cages with the letter of their group."""
    return tuple(
        Cage("equal-cages", cage, letter(index))
        for index, group in enumerate(groups)
        for cage in group.cages
    )


RULE = Rule(
    name="equal-cages",
    meaning="Cages with the same letter have the same sum; no digit stands twice in a cage.",
    marks="a list of groups, each a list of cages: `[[GROUP, GROUP], [GROUP, GROUP, GROUP]]`",
    grammar=Listed(Together(GROUP, TWO_OR_MORE), "a list of groups of cages"),
    make=make,
    draw=draw,
    says=partial(one_sentence, "equal-cages"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Even loads
kind: sudoku
size: 6
rules:
  equal-cages:
    - [r1c1 s e, r1c6 s]
    - [r6c6 n w, r6c1 n]
    - [r3c2 s e, r3c5 s]
givens: |
  . . . | . . .
  . . . | . 6 .
  -------------
  . . . | 3 . .
  . . . | . . 4
  -------------
  . . . | . . .
  . . . | . . 3
""",
)
