"""What alike marks keep of their cells on many sheets, read off for all of them in one go.

Everywhere `held` has a row for each look at a mark: what its cells hold, and nothing past its last.
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from typing import Final, NamedTuple, Protocol

from verify.board import Cell
from verify.facets import Facets, Form
from verify.formula.noted import Diagrammed
from verify.formula.scan import Diagram
from verify.pencil import bit
from verify.walk.facts.arrays import Flags, Masks, Numbers, Words
from verify.walk.facts.step import Link

MOST_TOTAL: Final = 63
"""Sums from 0 on that have a bit in a word."""

MOST_DIGITS: Final = 15
"""Digits of which all sets are few enough to be turned about in a table."""


class ReadOff(Protocol):
    """Marks by their numbers."""

    def kept(self, marks: Numbers, held: Masks) -> Masks:
        """The candidates that they keep; `marks` has the number of each look's mark."""
        ...


def read_off(
    links: Sequence[Link], facets: Mapping[Link, Facets], digits: int
) -> list[ReadOff | None]:
    """For each mark with whom it can be read off, or None; marks are counted from 0."""
    totals, by_diagram = Totals(digits), dict[int, ManyWays]()
    found: list[ReadOff | None] = []
    for number, link in enumerate(links):
        constraint, total = link.constraint, _total(facets[link])
        if total is not None and totals.has_room_for(number, len(constraint.cells), total):
            found.append(totals)
        elif isinstance(constraint, Diagrammed):
            diagram = constraint.diagram(digits)
            ways = by_diagram.setdefault(id(diagram), ManyWays(diagram))
            ways.add(number, constraint.cells)
            found.append(ways)
        else:
            found.append(None)
    return found


def _total(said: Facets) -> int | None:
    """The total of a mark that says nothing else but what its cells sum to."""
    if said.all_by is not Form.SUMS or said.groups or said.pairs or len(said.sums) != 1:
        return None
    return None if said.sums[0].others else said.sums[0].total


class Totals:
    """Marks that say what the digits of their cells sum to, and nothing else.

    A large total is read with the digits turned about: 9 for 1, and so on.
    """

    def __init__(self, digits: int) -> None:
        self._digits = digits
        self._marks: dict[int, tuple[int, int, bool]] = {}

    def has_room_for(self, number: int, cells: int, total: int) -> bool:
        """Takes a mark in, if its total has room in a word."""
        turned = total > MOST_TOTAL
        total = cells * (self._digits + 1) - total if turned else total
        fine = 0 <= total <= MOST_TOTAL and self._digits <= MOST_DIGITS
        if fine:
            self._marks[number] = cells, total, turned
        return fine

    def kept(self, marks: Numbers, held: Masks) -> Masks:
        """The candidates that stand in some choice of digits with the total."""
        import numpy

        cells, totals, turned = numpy.array([self._marks[each] for each in marks.tolist()]).T
        nobody = numpy.arange(held.shape[1]) >= cells[:, None]
        held, turned = numpy.where(nobody, 1, held), turned.astype(bool)
        held[turned] = self._turned[held[turned]]
        kept = kept_by_sums(held, totals, self._digits)
        kept[turned] = self._turned[kept[turned]]
        kept[nobody] = 0
        return kept

    @cached_property
    def _turned(self) -> Masks:
        """Every set of digits turned about."""
        import numpy

        turned = [0] * (2 << self._digits)
        for mask in range(1, len(turned)):
            low = (mask & -mask).bit_length() - 1
            turned[mask] = turned[mask & mask - 1] | (bit(self._digits + 1 - low) if low else 1)
        return numpy.array(turned, numpy.uint32)


def kept_by_sums(held: Masks, totals: Numbers, digits: int) -> Masks:
    """The candidates that stand in some choice of digits with the total of their row.

    What is no cell holds bit 0 alone. Totals are at most `MOST_TOTAL`: larger sums than a row's
    total don't matter, so it is no loss that they have no bit.
    """
    import numpy

    every = numpy.arange(digits + 1, dtype=numpy.uint64)[:, None]
    marks = held.T.astype(numpy.uint64)
    # All bits of a word where a cell (second axis) holds a digit (first axis).
    holds = ~(((marks >> every[:, :, None]) & numpy.uint64(1)) - numpy.uint64(1))
    back = [numpy.uint64(1) << totals.astype(numpy.uint64)]
    for at in range(len(marks) - 1, 0, -1):
        back.append(numpy.bitwise_or.reduce(back[-1] >> every & holds[:, at], axis=0))
    sums: Words = numpy.ones(len(held), numpy.uint64)
    kept = numpy.zeros_like(held)
    for at, rest in enumerate(reversed(back)):
        reached = sums << every & holds[:, at]
        stands = reached & rest != 0
        kept[:, at] = numpy.bitwise_or.reduce(stands << every, axis=0)
        sums = numpy.bitwise_or.reduce(reached, axis=0)
    return kept


class ManyWays:
    """Marks with one diagram."""

    def __init__(self, diagram: Diagram) -> None:
        self._layers = [_Edges.of(layer) for layer in diagram]
        self._orders: dict[int, list[int]] = {}

    def add(self, number: int, cells: Sequence[Cell]) -> None:
        """Takes a mark in. Looks have its cells rising, a diagram has them in its own order."""
        rising = sorted(cells)
        self._orders[number] = [rising.index(cell) for cell in cells]

    def kept(self, marks: Numbers, held: Masks) -> Masks:
        """The candidates that stand in some way."""
        import numpy

        orders = numpy.array([self._orders[each] for each in marks.tolist()])
        kept = numpy.zeros_like(held)
        ordered = self.kept_in_order(numpy.take_along_axis(held, orders, axis=1))
        numpy.put_along_axis(kept, orders, ordered, axis=1)
        return kept

    def kept_in_order(self, held: Masks) -> Masks:
        """The same for cells in the order of the diagram."""
        import numpy

        kept, cells = numpy.zeros_like(held), held.astype(numpy.int64).T
        reached, lives = numpy.ones((1, len(held)), bool), []
        for edges, cell in zip(self._layers, cells, strict=True):
            lives.append(reached[edges.before] & (edges.digits & cell != 0))
            reached = edges.behind.any_of(lives[-1])
        fine = numpy.ones_like(reached)
        for at in reversed(range(len(self._layers))):
            edges = self._layers[at]
            live = lives[at] & fine[edges.after]
            held_by = numpy.where(live, edges.digits, 0)
            kept[:, at] = numpy.bitwise_or.reduce(held_by, axis=0) & cells[at]
            fine = edges.in_front.any_of(live)
        return kept


class _States(NamedTuple):
    """The states on one side of some edges: which edges they have, one state after another."""

    size: int
    edges: Numbers
    first: Numbers
    states: Numbers

    @classmethod
    def of(cls, states: Numbers) -> "_States":
        """By the state of each edge."""
        import numpy

        order = numpy.argsort(states, kind="stable")
        first = numpy.flatnonzero(numpy.diff(states[order], prepend=-1))
        return cls(1 + int(states.max(initial=0)), order, first, states[order][first])

    def any_of(self, live: Flags) -> Flags:
        """For each state (rows) whether some of its edges lives, on each sheet (columns)."""
        import numpy

        found = numpy.zeros((self.size, live.shape[1]), bool)
        if len(self.first):
            found[self.states] = numpy.logical_or.reduceat(live[self.edges], self.first, axis=0)
        return found


class _Edges(NamedTuple):
    """The edges over one cell: the state before each, the one after it, and its digits."""

    before: Numbers
    after: Numbers
    digits: Numbers
    in_front: _States
    behind: _States

    @classmethod
    def of(cls, layer: Iterable[tuple[int, int, int]]) -> "_Edges":
        """As arrays; digits as a column."""
        import numpy

        before, after, digits = numpy.array(list(layer), numpy.int64).reshape(-1, 3).T
        return cls(before, after, digits[:, None], _States.of(before), _States.of(after))
