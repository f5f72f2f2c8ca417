"""Scans: what can be read off cells one after another, as a layered decision diagram.

Many rules ask for something that a reader finds by going along a line with a running note: the
sum so far, the highest so far, whether the 1 has been passed. The note is a *state*; each
digit moves it on. All ways of going through the cells make a diagram with one layer of states
before each cell: compact however many ways there are, as long as the states are few.
"""

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeAlias, TypeVar

from verify.board import Cell
from verify.pencil import Mask, Pencil, bit, digits_of, highest, lowest

S = TypeVar("S", bound=Hashable)

Layer: TypeAlias = dict[S, dict[int, S]]
"""For each state before a cell: each digit that leads on, and to which state."""


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


def diagram(scan: Scan[S], pencil: Pencil) -> list[Layer[S]]:
    """A layer for each cell, with only what can be reached from the start and reach an end.

    Empty layers where there is no way at all.
    """
    layers: list[Layer[S]] = []
    states: dict[S, None] = {scan.start: None}
    for index, cell in enumerate(scan.cells):
        digits = tuple(digits_of(pencil[cell]))
        layer: Layer[S] = {}
        following: dict[S, None] = {}
        for state in states:
            edges = layer[state] = {}
            for digit in digits:
                after = scan.step(state, index, digit)
                if after is not None:
                    edges[digit] = after
                    following[after] = None
        layers.append(layer)
        states = following
    _keep_leading_on(layers, {state for state in states if scan.ends(state)})
    return layers


def _keep_leading_on(layers: list[Layer[S]], fine: set[S]) -> None:
    """Drops from the layers, in place, what leads to no fine end."""
    for index in reversed(range(len(layers))):
        kept: Layer[S] = {}
        for state, edges in layers[index].items():
            on = {digit: after for digit, after in edges.items() if after in fine}
            if on:
                kept[state] = on
        layers[index] = kept
        fine = set(kept)


def scan_survivors(scan: Scan[S], pencil: Pencil) -> list[tuple[Cell, Mask]]:
    """For each cell, the candidates that stand in some way through all the cells."""
    kept = []
    for cell, layer in zip(scan.cells, diagram(scan, pencil), strict=True):
        digits = {digit for edges in layer.values() for digit in edges}
        kept.append((cell, sum(map(bit, digits))))
    return kept


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
