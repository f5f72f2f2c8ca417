"""Which cells marks make larger, or smaller, than a cell, over any number of marks."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final, NamedTuple, TypeAlias

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.facets import Facets
from verify.walk.facts.step import House, Link

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
    houses: Sequence[House], facets: Mapping[Link, Facets], deadline: Deadline = NEVER
) -> Iterator[Rank]:
    """All that some marks say about the order within some houses.

    Raises BudgetSpent after the deadline.
    """
    larger = _closure(_rises(facets), deadline)
    for others, upwards in ((larger, True), (_turned(larger), False)):
        for cell in sorted(others):
            deadline.check()
            for house in houses:
                beyond = tuple(other for other in house.cells if other in others[cell])
                if len(beyond) >= FEWEST_BEYOND:
                    by = dict.fromkeys(link for other in beyond for link in others[cell][other])
                    yield Rank(cell, beyond, upwards, house, tuple(by))


def _rises(facets: Mapping[Link, Facets]) -> dict[Cell, dict[Cell, tuple[Link, ...]]]:
    """For each cell, the cells that one mark makes larger."""
    rises: dict[Cell, dict[Cell, tuple[Link, ...]]] = {}
    for link, said in facets.items():
        for low, high in said.rises:
            rises.setdefault(low, {}).setdefault(high, (link,))
    return rises


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
