"""Scans: what can be read off cells one after another, as a layered decision diagram.

Many rules ask for something that a reader finds by going along a line with a running note: the
sum so far, the highest so far, whether the 1 has been passed. The note is a *state*; each
digit moves it on. All ways of going through the cells make a diagram with one layer of states
before each cell: compact however many ways there are, as long as the states are few.
"""

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_
from typing import Generic, TypeAlias, TypeVar

from verify.board import Cell
from verify.budget import MOST_EDGES, NEVER, BudgetSpent, Deadline
from verify.pencil import Mask, Pencil, bit, digits_of, every_digit, highest, lowest

S = TypeVar("S", bound=Hashable)

Edge: TypeAlias = tuple[int, int, Mask]
"""A state before a cell, a state behind it, and the digits that lead from the one to the other."""

Diagram: TypeAlias = Sequence[Sequence[Edge]]
"""The edges of each cell, in order. States are numbered anew in each layer; 0 is the start."""


@dataclass(frozen=True, slots=True)
class Scan(Generic[S]):
    """A way of reading cells in order.

    `step(state, index, digit)` is the state after the cell at that index of `cells` held that
    digit, or None where that can't be. `ends` says whether a state after the last cell is fine.
    A cell may stand in `cells` once only.
    """

    cells: tuple[Cell, ...]
    start: S
    step: Callable[[S, int, int], S | None]
    ends: Callable[[S], bool]


def diagram(scan: Scan[S], pencil: Pencil, deadline: Deadline = NEVER) -> Diagram:
    """All ways through the marks that end well; no edges at all where there is none.

    Raises BudgetSpent after the deadline, or where it has too many edges.
    """
    return diagram_to_ends(scan, pencil, deadline)[0]


def diagram_to_ends(
    scan: Scan[S], pencil: Pencil, deadline: Deadline = NEVER
) -> tuple[Diagram, dict[int, S]]:
    """The same, and what each number behind the last cell stands for."""
    layers: list[list[Edge]] = []
    room = MOST_EDGES
    states: dict[S, int] = {scan.start: 0}
    for index, cell in enumerate(scan.cells):
        digits = tuple(digits_of(pencil[cell]))
        following: dict[S, int] = {}
        edges: dict[tuple[int, int], Mask] = {}
        for state, number in states.items():
            deadline.check()
            if len(edges) > room:
                raise BudgetSpent
            for digit in digits:
                after = scan.step(state, index, digit)
                if after is not None:
                    edge = number, following.setdefault(after, len(following))
                    edges[edge] = edges.get(edge, 0) | bit(digit)
        layers.append([(before, after, mask) for (before, after), mask in edges.items()])
        room -= len(edges)
        states = following
    ends = {number: state for state, number in states.items() if scan.ends(state)}
    return _leading_on(layers, set(ends)), ends


def whole_diagram(scan: Scan[S], digits: int) -> Diagram:
    """The diagram where nothing is known of any cell, to be kept and run over many cells."""
    cells = tuple(range(len(scan.cells)))
    return diagram(
        Scan(cells, scan.start, scan.step, scan.ends), [every_digit(digits)] * len(cells)
    )


def live(ways: Diagram, cells: Sequence[Cell], pencil: Pencil) -> Diagram:
    """What is left of a diagram that is run over some cells with their marks."""
    layers: list[list[Edge]] = []
    reached = {0}
    for cell, layer in zip(cells, ways, strict=True):
        mask = pencil[cell]
        edges = [
            (before, after, digits & mask)
            for before, after, digits in layer
            if digits & mask and before in reached
        ]
        reached = {after for _, after, _ in edges}
        layers.append(edges)
    return _leading_on(layers, reached)


def _leading_on(layers: list[list[Edge]], fine: set[int]) -> Diagram:
    """The edges that lead on to a fine end."""
    for index in reversed(range(len(layers))):
        layers[index] = [edge for edge in layers[index] if edge[1] in fine]
        fine = {before for before, _, _ in layers[index]}
    return layers


def survivors(ways: Diagram, cells: Sequence[Cell], pencil: Pencil) -> list[tuple[Cell, Mask]]:
    """For each cell, the candidates that stand in some way through all the cells."""
    return _held(live(ways, cells, pencil), cells)


def scan_survivors(scan: Scan[S], pencil: Pencil) -> list[tuple[Cell, Mask]]:
    """The same for a scan that is run only once."""
    return _held(diagram(scan, pencil), scan.cells)


def _held(ways: Diagram, cells: Sequence[Cell]) -> list[tuple[Cell, Mask]]:
    """The digits on the edges of each cell."""
    return [
        (cell, reduce(or_, (digits for _, _, digits in layer), 0))
        for cell, layer in zip(cells, ways, strict=True)
    ]


def total_scan(weights: Mapping[Cell, int], total: int, pencil: Pencil) -> Scan[int]:
    """The scan of a sum: digits, each times its cell's weight, that sum to `total`.

    Its states are the sums so far from which the total is still in reach.
    """
    cells, factors = tuple(weights), tuple(weights.values())
    low, high = _bounds(cells, factors, pencil)

    def step(so_far: int, index: int, digit: int) -> int | None:
        after = so_far + factors[index] * digit
        return after if low[index] <= total - after <= high[index] else None

    return Scan(cells, 0, step, lambda so_far: so_far == total)


def _bounds(
    cells: Sequence[Cell], factors: Sequence[int], pencil: Pencil
) -> tuple[list[int], list[int]]:
    """For each cell, the least and the largest sum of all the cells behind it."""
    low, high = [0], [0]
    for cell, factor in zip(reversed(cells[1:]), reversed(factors[1:]), strict=True):
        mask = pencil[cell] or 1
        ends = factor * lowest(mask), factor * highest(mask)
        low.append(low[-1] + min(ends))
        high.append(high[-1] + max(ends))
    return low[::-1], high[::-1]
