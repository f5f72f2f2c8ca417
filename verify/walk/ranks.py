"""Which cells marks make larger, or smaller, than a cell, over any number of marks."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final, NamedTuple, TypeAlias

from verify.board import Cell
from verify.proof.budget import NEVER, Deadline
from verify.rules.arrow import Arrow
from verify.rules.extremes import Extreme
from verify.rules.greater import Greater
from verify.rules.outside_arrow import OutsideArrow
from verify.rules.thermometer import Thermometer
from verify.rules.zipper import Zipper
from verify.walk.step import House, Link

Beyond: TypeAlias = Mapping[Cell, Mapping[Cell, tuple[Link, ...]]]
"""For each cell, the cells that are larger (or smaller), each with the marks that say so."""

FEWEST_BEYOND: Final = 2
"""One cell beyond another is what its mark says by itself."""


class Rank(NamedTuple):
    """The cells of one house that all are larger than a cell (`upwards`), or smaller."""

    cell: Cell
    beyond: tuple[Cell, ...]
    upwards: bool
    house: House
    links: tuple[Link, ...]


def ranks(
    houses: Sequence[House], links: Sequence[Link], deadline: Deadline = NEVER
) -> Iterator[Rank]:
    """All that some marks say about the order within some houses.

    Raises BudgetSpent after the deadline.
    """
    larger = _closure(_rises(links), deadline)
    for others, upwards in ((larger, True), (_turned(larger), False)):
        for cell in sorted(others):
            deadline.check()
            for house in houses:
                beyond = tuple(other for other in house.cells if other in others[cell])
                if len(beyond) >= FEWEST_BEYOND:
                    by = dict.fromkeys(link for other in beyond for link in others[cell][other])
                    yield Rank(cell, beyond, upwards, house, tuple(by))


def _rises(links: Sequence[Link]) -> dict[Cell, dict[Cell, tuple[Link, ...]]]:
    """For each cell, the cells that one mark makes larger."""
    rises: dict[Cell, dict[Cell, tuple[Link, ...]]] = {}
    for link in links:
        for low, high in _pairs(link):
            rises.setdefault(low, {}).setdefault(high, (link,))
    return rises


def _pairs(link: Link) -> Iterator[tuple[Cell, Cell]]:
    """The pairs of a smaller and a larger cell that a mark tells of."""
    constraint = link.constraint
    if isinstance(constraint, Thermometer):
        yield from pairwise(constraint.cells)
    elif isinstance(constraint, OutsideArrow):
        yield from pairwise(constraint.cells[:: 1 if constraint.rises else -1])
    elif isinstance(constraint, Greater):
        larger, smaller = constraint.cells
        yield smaller, larger
    elif isinstance(constraint, Extreme):
        first, *others = constraint.cells
        yield from ((first, other) if constraint.least else (other, first) for other in others)
    elif isinstance(constraint, Zipper):
        middle = constraint.cells[len(constraint.cells) // 2]
        yield from ((tooth, middle) for tooth in constraint.cells if tooth != middle)
    elif isinstance(constraint, Arrow) and len(constraint.total) == 1 < len(constraint.shaft):
        yield from ((cell, constraint.total[0]) for cell in constraint.shaft)


def _closure(rises: dict[Cell, dict[Cell, tuple[Link, ...]]], deadline: Deadline) -> Beyond:
    """The same over any number of marks."""
    closed: dict[Cell, dict[Cell, tuple[Link, ...]]] = {}
    for start in rises:
        deadline.check()
        found: dict[Cell, tuple[Link, ...]] = {}
        waiting: list[tuple[Cell, tuple[Link, ...]]] = [(start, ())]
        while waiting:
            cell, links = waiting.pop(0)
            for above, by in rises.get(cell, {}).items():
                if above not in found:
                    found[above] = tuple(dict.fromkeys((*links, *by)))
                    waiting.append((above, found[above]))
        closed[start] = found
    return closed


def _turned(beyond: Beyond) -> Beyond:
    """From larger cells to smaller ones."""
    turned: dict[Cell, dict[Cell, tuple[Link, ...]]] = {}
    for cell, others in beyond.items():
        for other, links in others.items():
            turned.setdefault(other, {})[cell] = links
    return turned
