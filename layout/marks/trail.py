"""Trails: shapes through the middles of cells, with bulbs, rings and arrowheads.

Each is painted as one thing in three coats: a white edge that clears what it passes over,
its edge line, its body; so that forks show no seams. Where it crosses itself the later part
passes over the earlier one as a bridge.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, pi, sin
from typing import Final, Literal

from layout.marks.lattice import Lattice
from layout.picture.items import Contour, Fill, Item, Path, Point, Stroke
from layout.picture.order import Layer, Painted
from layout.picture.shapes import along, capsule, disc, polyline, unit
from layout.style.board import TrailLook
from verify.board import Board, Cell
from verify.marks import Trail

HEAD_ANGLE: Final = pi / 5.2
"""Half the opening of an arrowhead."""

RIM_STEPS: Final = 40
"""Halvings until a shaft's start on the rim is exact to a billionth of a cell."""


@dataclass(frozen=True, slots=True)
class Body:
    """A trail in millimetres.

    `lines` run through the cells, `heads` are the arrowheads at their ends. A bridge is the
    stretch of line that passes over an earlier part of the same trail.
    """

    width: float
    cap: Literal["butt", "round"]
    lines: Path
    heads: Path
    bulbs: Path
    bridges: Path


def draw(mark: Trail, look: TrailLook, lattice: Lattice) -> Iterator[Painted]:
    """White edge, edge line, body, bridges; and the ring that it leaves from."""
    layer = Layer.SHAFT if is_line(mark) else Layer.TRAIL
    for item in _items(mark, look, lattice):
        yield layer, item


def is_line(mark: Trail) -> bool:
    """Whether a trail is drawn as a line rather than as a broad shape."""
    return bool(mark.ring) or mark.end == "arrowhead"


def tell(mark: Trail, board: Board) -> str:
    """The role, and the cells of each branch."""
    ring = f" with {' '.join(map(board.name, mark.ring))} ringed" if mark.ring else ""
    branches = "; ".join(" ".join(map(board.name, branch)) for branch in mark.branches)
    return f"{mark.role}{ring}: {branches}"


def _items(mark: Trail, look: TrailLook, lattice: Lattice) -> Iterator[Item]:
    side = lattice.side
    edge, clear, line = look.edge.at(side), look.clear * side, look.ring_line.at(side)
    ink, edge_ink = 1 - look.ink, 1 - look.edge_ink
    body = _body(mark, look, lattice)
    ring = (capsule(lattice.centres(mark.ring), look.ring * side / 2),) if mark.ring else ()
    if ring:
        yield Stroke(ring, line + 2 * clear, 1.0)
    yield from _coat(body, edge + clear, 1.0)
    if edge:
        yield from _coat(body, edge, edge_ink)
    yield from _coat(body, 0.0, ink)
    if body.bridges:
        yield Stroke(body.bridges, body.width + 2 * (edge + clear), 1.0)
        yield Stroke(body.bridges, body.width + 2 * edge, edge_ink if edge else ink)
        yield Stroke(body.bridges, body.width, ink, "square")
    if ring:
        yield Stroke(ring, line, ink)


def _coat(body: Body, beyond: float, grey: float) -> Iterator[Item]:
    """The whole body in one grey, so much larger all round."""
    width = body.width + 2 * beyond
    yield Stroke(body.lines, width, grey, body.cap, "round")
    if body.heads:
        yield Stroke(body.heads, width, grey)
    if body.bulbs:
        yield Fill(body.bulbs, grey)
        if beyond:
            yield Stroke(body.bulbs, 2 * beyond, grey)


def _body(mark: Trail, look: TrailLook, lattice: Lattice) -> Body:
    side = lattice.side
    runs = _runs(mark)
    lines = [_line(run, mark, look, lattice) for run in runs]
    arrow = mark.end == "arrowhead"
    start = lattice.centre(mark.branches[0][0])
    return Body(
        width=look.width.at(side),
        cap="butt" if arrow or mark.ring else "round",
        lines=tuple(polyline(line) for line in lines),
        heads=tuple(_head(line, look.head * side) for line in lines) if arrow else (),
        bulbs=(disc(start, look.bulb * side / 2),) if mark.start == "bulb" else (),
        bridges=tuple(_bridges(runs, look, lattice)),
    )


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
    """The points of a run: from the rim where it leaves a ring, to the tip of its head."""
    points = lattice.centres(run)
    if run[0] in mark.ring:
        points[0] = _rim(lattice.centres(mark.ring), look.ring * lattice.side / 2, points)
    if mark.end == "arrowhead":
        ahead = unit(points[-2], points[-1])
        # As far past the middle on either axis: further where the last step is diagonal.
        reach = look.tip * lattice.side / max(abs(ahead[0]), abs(ahead[1]))
        points[-1] = along(points[-1], ahead, reach)
    return points


def _rim(ring: list[Point], radius: float, points: list[Point]) -> Point:
    """Where a line from a ringed cell to the next one leaves the ring, found by halving."""
    ahead = unit(points[0], points[1])
    inside, outside = 0.0, 3 * radius
    for _ in range(RIM_STEPS):
        middle = (inside + outside) / 2
        if _distance(along(points[0], ahead, middle), ring) < radius:
            inside = middle
        else:
            outside = middle
    return along(points[0], ahead, inside)


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


def _head(line: list[Point], length: float) -> Contour:
    """An open arrowhead: two arms that meet at the tip."""
    tip = line[-1]
    x, y = unit(tip, line[-2])
    reach = length / cos(HEAD_ANGLE)
    arms = [
        along(tip, (x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)), reach)
        for turn in (HEAD_ANGLE, -HEAD_ANGLE)
    ]
    return polyline([arms[0], tip, arms[1]])


def _bridges(runs: list[tuple[Cell, ...]], look: TrailLook, lattice: Lattice) -> Iterator[Contour]:
    """The stretches over earlier steps: only two diagonal steps can cross, at a corner."""
    reach = look.width.at(lattice.side) / 2 + look.edge.at(lattice.side)
    columns = lattice.board.columns
    crossed: set[tuple[int, int]] = set()
    for start, end in (step for run in runs for step in pairwise(run)):
        corner = max(start // columns, end // columns), max(start % columns, end % columns)
        if start // columns == end // columns or start % columns == end % columns:
            continue
        if corner in crossed:
            ahead = unit(lattice.centre(start), lattice.centre(end))
            middle = lattice.corner(*corner)
            yield polyline([along(middle, ahead, -reach), along(middle, ahead, reach)])
        crossed.add(corner)
