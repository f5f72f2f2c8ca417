"""What a mark says in the few forms that a walk knows, whatever its rule: its facets.

A walk reasons about groups of cells that differ, about sums and about orders, over many marks
together. It knows no rule by name: it reads the facets that a mark brings beside its strikes.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import combinations, pairwise
from typing import Final, Protocol, TypeAlias, runtime_checkable

from verify.board import Cell

Pair: TypeAlias = tuple[Cell, Cell]

Weighted: TypeAlias = tuple[tuple[Cell, int], ...]
"""Cells, each with what its digit is multiplied by."""


class Form(Enum):
    """What of its facets says all that a mark says, together with the cells that it keeps apart."""

    APART = "which cells differ"
    SUMS = "its sums"
    ORDER = "its order"
    MORE = "none of them"


@dataclass(frozen=True, slots=True)
class Group:
    """Cells in which no digit stands twice; `kind` is the word for them: row, cage ..."""

    kind: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Sum:
    """The digits in `cells` sum to `total` and the weighted digits of `others`.

    `is_turned` where the same is said the other way about as well.
    """

    cells: frozenset[Cell]
    total: int
    others: Weighted = ()
    is_turned: bool = False

    @property
    def terms(self) -> Weighted:
        """All cells, on one side: they sum to `total`."""
        weights = dict.fromkeys(self.cells, 1)
        for cell, weight in self.others:
            weights[cell] = weights.get(cell, 0) - weight
        return tuple(sorted(weights.items()))


@dataclass(frozen=True, slots=True)
class Facets:
    """What a mark says in forms that all rules share; each follows from the mark alone.

    `groups` and `pairs` hold different digits; of each of `rises` the second cell holds the
    larger one. `all_by` is the form that says all of the mark.
    """

    groups: tuple[Group, ...] = ()
    pairs: tuple[Pair, ...] = ()
    sums: tuple[Sum, ...] = ()
    rises: tuple[Pair, ...] = ()
    all_by: Form = Form.MORE

    @property
    def sums_once(self) -> tuple[Sum, ...]:
        """The sums without those that say the same the other way about."""
        return tuple(said for said in self.sums if not said.is_turned)

    def apart(self) -> Iterator[Pair]:
        """Every pair of cells that differ, beside those of one group: each once, first the lower.

        What rises over several cells differs, too.
        """
        found = {tuple(sorted(pair)) for pair in (*self.pairs, *_climbs(self.rises))}
        return iter(sorted((low, high) for low, high in found))


NOTHING: Final = Facets()


@runtime_checkable
class Faceted(Protocol):
    """A mark that has facets."""

    def facets(self, digits: int) -> Facets:
        """What it says in these forms, on a board of so many digits."""
        ...


def facets_of(constraint: object, digits: int) -> Facets:
    """The facets of a mark; none where it brings none."""
    return constraint.facets(digits) if isinstance(constraint, Faceted) else NOTHING


def rising(cells: Sequence[Cell]) -> Facets:
    """Cells each of which holds a larger digit than the one before, and nothing else."""
    return Facets(rises=tuple(pairwise(cells)), all_by=Form.ORDER)


def summing(cells: Sequence[Cell], total: int) -> Facets:
    """Cells whose digits sum to a number, and nothing else."""
    return Facets(sums=(Sum(frozenset(cells), total),), all_by=Form.SUMS)


def equal_sides(
    one: Sequence[tuple[Cell, int]], other: Sequence[tuple[Cell, int]]
) -> Iterator[Sum]:
    """What two equal sides of weighted cells say: a sum of each side without other weights."""
    for here, there, is_turned in ((one, other, False), (other, one, True)):
        if all(weight == 1 for _, weight in here):
            yield Sum(frozenset(cell for cell, _ in here), 0, tuple(there), is_turned)


def equal_parts(parts: Sequence[Sequence[Cell]]) -> Facets:
    """Parts with one sum, and nothing else; a digit that is a part is larger than those of others.

    (Than those of larger parts; another part of one cell holds the same digit.)
    """
    sides = [[(cell, 1) for cell in part] for part in parts]
    sums = (said for two in combinations(sides, 2) for said in equal_sides(*two))
    alone = [part[0] for part in parts if len(part) == 1]
    summed = [cell for part in parts if len(part) > 1 for cell in part]
    rises = tuple((cell, one) for one in alone for cell in summed)
    return Facets(sums=tuple(sums), rises=rises, all_by=Form.SUMS)


def every_pair(cells: Sequence[Cell], apart: int = 1) -> tuple[Pair, ...]:
    """The pairs of cells along a line whose places are no multiple of `apart` from each other.

    With 1, which is never so, all pairs.
    """
    places = combinations(range(len(cells)), 2)
    return tuple((cells[a], cells[b]) for a, b in places if apart == 1 or (b - a) % apart)


def _climbs(rises: Sequence[Pair]) -> Iterator[Pair]:
    """Each cell with every cell that is larger, over any number of rises."""
    above: dict[Cell, list[Cell]] = {}
    for low, high in rises:
        above.setdefault(low, []).append(high)
    for start in above:
        waiting, seen = list(above[start]), {start}
        while waiting:
            cell = waiting.pop()
            if cell not in seen:
                seen.add(cell)
                yield start, cell
                waiting += above.get(cell, ())
