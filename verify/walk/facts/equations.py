"""Sums that marks of rules state, and what they leave of the sum of whole houses."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final, TypeAlias

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.facets import Sum
from verify.pencil import Pencil, bit, digits_of, highest, lowest
from verify.walk.facts.step import House, Link

Terms: TypeAlias = Sequence[tuple[Cell, int]]
"""Cells, each with how often its digit counts."""

Weights: TypeAlias = dict[Cell, int]
"""How often the digit of each cell counts in a sum."""

MOST_HOUSES: Final = 3
MOST_CHOICES: Final = 16
"""Ways to choose sums that don't overlap, past which nobody would go through them all."""
MOST_LEFT: Final = 9
"""Cells left over of a sum that can still say something."""


@dataclass(frozen=True, slots=True)
class Equation:
    """A sum, and the mark that states it."""

    link: Link
    said: Sum

    def clashes(self, other: "Equation") -> bool:
        """Whether two sums overlap, or turn the same sides of a mark into each other."""
        one, two = self.said, other.said
        if one.cells & two.cells:
            return True
        return self.link == other.link and not (
            one.cells.isdisjoint(cell for cell, _ in two.others)
            and two.cells.isdisjoint(cell for cell, _ in one.others)
        )


@dataclass(frozen=True, slots=True)
class LeftOver:
    """The weighted digits of a few cells sum to `total`: houses less what marks say of them."""

    houses: tuple[House, ...]
    links: tuple[Link, ...]
    terms: tuple[tuple[Cell, int], ...]
    total: int


def ways_to_sum(
    terms: Terms, total: int, pencil: Pencil, peers: Sequence[int]
) -> Iterator[tuple[int, ...]]:
    """Every choice of digits, one for each term, that makes the total.

    Cells that see each other differ; `peers` has the cells that each cell sees, as bits.
    """
    low, high = [0], [0]
    for cell, weight in reversed(terms):
        ends = [weight * end(pencil[cell] or 1) for end in (lowest, highest)]
        low.append(low[-1] + min(ends))
        high.append(high[-1] + max(ends))

    def go_on(chosen: tuple[int, ...], left: int) -> Iterator[tuple[int, ...]]:
        rest = len(terms) - len(chosen)
        if not low[rest] <= left <= high[rest]:
            return
        if not rest:
            yield chosen
            return
        cell, weight = terms[len(chosen)]
        taken = 0
        for (other, _), digit in zip(terms, chosen, strict=False):
            if peers[cell] >> other & 1:
                taken |= bit(digit)
        for digit in digits_of(pencil[cell] & ~taken):
            yield from go_on((*chosen, digit), left - weight * digit)

    return go_on((), total)


def left_overs(
    houses: Sequence[House],
    equations: Sequence[Equation],
    digits: int,
    deadline: Deadline = NEVER,
) -> tuple[LeftOver, ...]:
    """All that sums of marks leave of the sums of one to three houses.

    Raises BudgetSpent after the deadline.
    """
    if not equations:
        return ()
    found = (
        left
        for union in _unions(houses)
        for chosen in _choices(union, equations, deadline)
        if (left := _left_over(union, chosen, digits)) is not None
    )
    return tuple(dict.fromkeys(found))


def _unions(full: Sequence[House]) -> Iterator[tuple[House, ...]]:
    """One to three houses of one kind, side by side where there are several."""
    kinds: dict[str, list[House]] = {}
    for house in full:
        kinds.setdefault(house.kind, []).append(house)
    for kind, houses in kinds.items():
        for count in range(1, MOST_HOUSES + 1):
            if kind in ("row", "column"):
                groups: Iterator[Sequence[House]] = (
                    houses[at : at + count] for at in range(len(houses) - count + 1)
                )
            else:
                groups = combinations(houses, count) if count < MOST_HOUSES else iter(())
            for group in groups:
                if _are_disjoint(frozenset(house.cells) for house in group):
                    yield tuple(group)


def _are_disjoint(groups: Iterable[frozenset[Cell]]) -> bool:
    cells = [cell for group in groups for cell in group]
    return len(set(cells)) == len(cells)


def _choices(
    houses: Sequence[House], equations: Sequence[Equation], deadline: Deadline
) -> Iterator[tuple[Equation, ...]]:
    """Sums within houses that don't overlap, as many as there can be; and all that touch them."""
    deadline.check()
    area = frozenset(cell for house in houses for cell in house.cells)
    whole = [each for each in equations if each.said.cells <= area]
    yield from _most_disjoint(whole, deadline)
    touching = [each for each in equations if not each.said.others and each.said.cells & area]
    more = len(touching) > sum(not each.said.others for each in whole)
    if more and _are_disjoint(each.said.cells for each in touching):
        yield tuple(touching)


def _most_disjoint(
    equations: Sequence[Equation], deadline: Deadline
) -> Sequence[tuple[Equation, ...]]:
    """Every choice of sums that don't overlap to which no other can be added.

    Nothing where there are too many of them, so that the order of the marks does not count.
    """
    clashes = []
    for one in equations:
        deadline.check()
        clashes.append(sum(1 << at for at, other in enumerate(equations) if one.clashes(other)))
    found: dict[int, None] = {}
    waiting = [(0, (1 << len(equations)) - 1)] if equations else []
    seen: set[int] = set()
    while waiting:
        deadline.check()
        chosen, free = waiting.pop()
        if not free:
            found[chosen] = None
            if len(found) > MOST_CHOICES:
                return ()
            continue
        # One of those that clash with the first free one, or it, is in every full choice.
        first = free & -free
        for at in _bits(free & clashes[first.bit_length() - 1]):
            after = chosen | 1 << at
            if after not in seen:
                seen.add(after)
                waiting.append((after, free & ~clashes[at]))
    return [tuple(equations[at] for at in _bits(chosen)) for chosen in sorted(found)]


def _bits(number: int) -> list[int]:
    return [at for at in range(number.bit_length()) if number >> at & 1]


def _left_over(
    houses: tuple[House, ...], chosen: Sequence[Equation], digits: int
) -> LeftOver | None:
    """The cells of some houses less those of some sums; None where too many or none are left."""
    weights: Weights = {cell: 1 for house in houses for cell in house.cells}
    total = len(houses) * digits * (digits + 1) // 2
    for equation in chosen:
        total -= equation.said.total
        for cell in equation.said.cells:
            weights[cell] = weights.get(cell, 0) - 1
        for cell, weight in equation.said.others:
            weights[cell] = weights.get(cell, 0) + weight
    terms = tuple((cell, weight) for cell, weight in sorted(weights.items()) if weight)
    if not 1 <= len(terms) <= MOST_LEFT:
        return None
    links = tuple(dict.fromkeys(equation.link for equation in chosen))
    return LeftOver(houses, links, terms, total)
