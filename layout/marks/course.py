"""The way that a trail takes, in millimetres: through middles, from rim to rim, to the tip."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from typing import Final

from layout.marks.lattice import Lattice
from layout.picture.items import Point
from layout.picture.shapes import along, unit
from layout.style.board import TrailLook
from verify.board import Cell
from verify.marks import Trail

RIM_STEPS: Final = 40
"""Halvings until a shaft's start on the rim is exact to a billionth of a cell."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """A point where a trail crosses itself, and the direction of its later step there."""

    at: Point
    ahead: Point


def lines(mark: Trail, look: TrailLook, lattice: Lattice) -> list[list[Point]]:
    """The points of each branch, from where it leaves the ones before it."""
    return [_line(run, mark, look, lattice) for run in _runs(mark)]


def circled(mark: Trail) -> list[Cell]:
    """The cells that have a circle, each once."""
    starts = [branch[0] for branch in mark.branches] if mark.start == "circle" else []
    ends = [branch[-1] for branch in mark.branches] if mark.end == "circle" else []
    return list(dict.fromkeys(starts + ends))


def crossings(mark: Trail, lattice: Lattice) -> Iterator[Crossing]:
    """Where it crosses itself: only two diagonal steps can, at a corner."""
    columns = lattice.board.columns
    crossed: set[tuple[int, int]] = set()
    for start, end in (step for run in _runs(mark) for step in pairwise(run)):
        corner = max(start // columns, end // columns), max(start % columns, end % columns)
        if start // columns == end // columns or start % columns == end % columns:
            continue
        if corner in crossed:
            ahead = unit(lattice.centre(start), lattice.centre(end))
            yield Crossing(lattice.corner(*corner), ahead)
        crossed.add(corner)


def _runs(mark: Trail) -> list[tuple[Cell, ...]]:
    """The branches, each from where it leaves the ones before it."""
    runs = []
    for index, branch in enumerate(mark.branches):
        shared = max((_common(branch, other) for other in mark.branches[:index]), default=0)
        if shared < len(branch):
            runs.append(branch[max(shared - 1, 0) :])
    return runs


def _common(one: tuple[Cell, ...], other: tuple[Cell, ...]) -> int:
    """How many cells two branches share from their start."""
    pairs = zip(one, other, strict=False)
    return next((count for count, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


def _line(run: tuple[Cell, ...], mark: Trail, look: TrailLook, lattice: Lattice) -> list[Point]:
    """The points of a run: from a rim where it leaves a ring or a circle, to its own end."""
    points = lattice.centres(run)
    round_cells = circled(mark)
    first, last = points[:2], points[:-3:-1]
    if run[0] in mark.ring:
        points[0] = _rim(lattice.centres(mark.ring), look.ring * lattice.side / 2, first)
    elif run[0] in round_cells:
        points[0] = _off_circle(first, look, lattice)
    if mark.end == "arrowhead":
        ahead = unit(points[-2], points[-1])
        # As far past the middle on either axis: further where the last step is diagonal.
        reach = look.tip * lattice.side / max(abs(ahead[0]), abs(ahead[1]))
        points[-1] = along(points[-1], ahead, reach)
    elif run[-1] in round_cells:
        points[-1] = _off_circle(last, look, lattice)
    return points


def _off_circle(step: list[Point], look: TrailLook, lattice: Lattice) -> Point:
    """Where a line that goes from a circle's middle to the next cell passes its rim."""
    return along(step[0], unit(*step), look.circle * lattice.side / 2)


def _rim(ring: list[Point], radius: float, step: list[Point]) -> Point:
    """Where a line from a ringed cell to the next one leaves the ring, found by halving."""
    ahead = unit(*step)
    inside, outside = 0.0, 3 * radius
    for _ in range(RIM_STEPS):
        middle = (inside + outside) / 2
        if _distance(along(step[0], ahead, middle), ring) < radius:
            inside = middle
        else:
            outside = middle
    return along(step[0], ahead, inside)


def _distance(point: Point, line: list[Point]) -> float:
    """How far a point is from a line through points."""
    if len(line) == 1:
        return hypot(point[0] - line[0][0], point[1] - line[0][1])
    return min(_distance_to_step(point, start, end) for start, end in pairwise(line))


def _distance_to_step(point: Point, start: Point, end: Point) -> float:
    x, y = end[0] - start[0], end[1] - start[1]
    share = ((point[0] - start[0]) * x + (point[1] - start[1]) * y) / (x * x + y * y)
    share = max(0.0, min(1.0, share))
    return hypot(point[0] - start[0] - share * x, point[1] - start[1] - share * y)
