"""What follows of houses that overlap: the laws of leftovers.

Some rows, and as many regions that cover nearly the same cells, hold every digit equally often. So
the cells that the rows alone have hold the same digits as those that the regions alone have. Unit
propagation does not see that. On irregular boards few cells are left over in many places, and on
plain boxes never.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from operator import add
from typing import Final, TypeAlias

from verify.board import Cell
from verify.pencil import digits_of

Cells: TypeAlias = int
"""Cells as the bits of a whole number."""

Law: TypeAlias = tuple[tuple[Cell, ...], tuple[Cell, ...]]
"""Cells of two sides that hold the same digits, each as often."""

MOST_LEFT: Final = 4
"""Cells left over on a side, at most. Measured on irregular boards of nine: with these laws the
solver has a third of the conflicts; with five cells a law costs more than it saves."""


MOST_KINDS: Final = 8
"""Kinds of houses that are looked at, so that a hostile board of countless houses is soon done."""


def laws_of_leftovers(houses: Sequence[Sequence[Cell]]) -> tuple[Law, ...]:
    """The laws of houses of one kind that follow one another beside as many of another kind.

    Each house has a cell for every digit.
    """
    found: dict[tuple[Cells, Cells], None] = {}
    for lines, others in combinations(_kinds(houses)[:MOST_KINDS], 2):
        for one, other in _laws(lines, others, len(houses[0])):
            found[min(one, other), max(one, other)] = None
    return tuple((tuple(digits_of(one)), tuple(digits_of(other))) for one, other in found)


def _kinds(houses: Sequence[Sequence[Cell]]) -> Sequence[Sequence[Cells]]:
    """Houses that follow one another and don't overlap: all rows, all columns, all regions."""
    kinds: list[list[Cells]] = []
    covered = -1
    for house in houses:
        cells = sum([1 << cell for cell in house])
        if cells & covered:
            kinds.append([])
            covered = 0
        kinds[-1].append(cells)
        covered |= cells
    return kinds


def _laws(
    lines: Sequence[Cells], others: Sequence[Cells], digits: int
) -> Iterator[tuple[Cells, Cells]]:
    """What lines that follow one another leave of those that cover the most of them, and these."""
    overlaps = [[(line & other).bit_count() for other in others] for line in lines]
    least = _least_count(max(map(max, overlaps)), digits)
    most = min(len(lines), len(others))
    for first in range(len(lines) - least + 1):
        covered, shared = 0, [0] * len(others)
        for count, at in enumerate(range(first, min(len(lines), first + most)), start=1):
            covered |= lines[at]
            shared = list(map(add, shared, overlaps[at]))
            if count >= least and 0 < count * digits - sum(sorted(shared)[-count:]) <= MOST_LEFT:
                nearest = sorted(range(len(others)), key=shared.__getitem__)[-count:]
                chosen = sum(others[each] for each in nearest)
                yield covered & ~chosen, chosen & ~covered


def _least_count(widest: int, digits: int) -> int:
    """How many lines there must be, where none shares more than so many cells with another."""
    counts = range(1, digits + 1)
    fine = (count for count in counts if count * (digits - count * widest) <= MOST_LEFT)
    return next(fine, digits + 1)
