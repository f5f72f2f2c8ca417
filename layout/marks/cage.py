"""Cages: an outline just inside the edges of a group of cells, its label in a corner."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import fsum

from layout.marks.label import Box, corner_label, ink_box
from layout.marks.lattice import Lattice
from layout.marks.outline import inset, outlines
from layout.picture.items import Contour, Point, Stroke, Text
from layout.picture.order import Layer, Painted
from layout.picture.shapes import along, polyline, unit
from layout.style.board import CageLook
from verify.board import Board
from verify.marks import Cage


def draw(mark: Cage, look: CageLook, lattice: Lattice) -> Iterator[Painted]:
    """The line, which leaves room for the label, and the label."""
    label = corner_label(mark.label, min(mark.cells), look, lattice) if mark.label else None
    room = _room(label, look, lattice) if label else None
    # What is left of a cut dash must still read as a dash.
    stub = look.dash * lattice.side / 3
    pieces: list[Contour] = []
    for loop in outlines(lattice.board, mark.cells):
        corners = inset(loop, look.inset * lattice.side, lattice)
        if look.dash:
            for dash in _dashes(corners, look, lattice):
                pieces += map(polyline, _clear_of(dash, room, stub))
        else:
            pieces += _solid(corners, room)
    yield Layer.CAGE, Stroke(tuple(pieces), look.line.at(lattice.side), 1 - look.ink)
    if label:
        yield Layer.LABEL, label


def tell(mark: Cage, board: Board) -> str:
    """The role, the label and the cells."""
    label = f" {mark.label}" if mark.label else ""
    return f"{mark.role}{label}: {' '.join(map(board.name, mark.cells))}"


def _room(label: Text, look: CageLook, lattice: Lattice) -> Box:
    """The label's ink and some white around it."""
    left, top, right, bottom = ink_box(label)
    clear = look.gap * lattice.side / 2 + look.line.at(lattice.side) / 2
    return left - clear, top - clear, right + clear, bottom + clear


def _solid(corners: Sequence[Point], room: Box | None) -> Iterator[Contour]:
    """A whole outline, or what the room for the label leaves of it."""
    loop = [*corners, corners[0]]
    rest = list(_clear_of(loop, room, 0.0))
    if rest == [loop]:
        yield polyline(corners, closed=True)
        return
    if rest[0][0] == rest[-1][-1]:
        # The loop was opened at a corner that keeps its line.
        rest[0] = rest.pop() + rest[0][1:]
    yield from map(polyline, rest)


def _dashes(corners: list[Point], look: CageLook, lattice: Lattice) -> Iterator[list[Point]]:
    """Dashes along an outline, fitted to each side so that every corner is a whole angle."""
    arms = []
    for start, end in pairwise([*corners, corners[0]]):
        length = abs(end[0] - start[0]) + abs(end[1] - start[1])
        count = max(1, round(length / ((look.dash + look.gap) * lattice.side)))
        period = length / count
        dash = period * look.dash / (look.dash + look.gap)
        ahead = unit(start, end)
        arms.append((along(start, ahead, dash / 2), along(end, ahead, -dash / 2)))
        for index in range(1, count):
            middle = index * period
            yield [along(start, ahead, middle - dash / 2), along(start, ahead, middle + dash / 2)]
    for corner, arm, before in zip(corners, arms, arms[-1:] + arms, strict=False):
        yield [before[1], corner, arm[0]]


def _clear_of(line: list[Point], room: Box | None, stub: float) -> Iterator[list[Point]]:
    """What is left of a line outside the room for the label, but for mere stubs where it is cut."""
    if room is None or not any(_touches(step, room) for step in pairwise(line)):
        yield line
        return
    parts: list[list[Point]] = []
    for start, end in pairwise(line):
        for one, other in _outside(start, end, room):
            if parts and parts[-1][-1] == one:
                parts[-1].append(other)
            else:
                parts.append([one, other])
    yield from (part for part in parts if _length(part) > stub)


def _length(line: list[Point]) -> float:
    """How long a line of upright and level steps is."""
    return fsum(abs(x2 - x1) + abs(y2 - y1) for (x1, y1), (x2, y2) in pairwise(line))


def _touches(step: tuple[Point, Point], room: Box) -> bool:
    """Whether an upright or level line enters the room."""
    (x1, y1), (x2, y2) = step
    left, top, right, bottom = room
    return max(x1, x2) > left and min(x1, x2) < right and max(y1, y2) > top and min(y1, y2) < bottom


def _outside(start: Point, end: Point, room: Box) -> Iterator[tuple[Point, Point]]:
    """The parts of an upright or level line before and after the room, in its direction."""
    if not _touches((start, end), room):
        yield start, end
        return
    left, top, right, bottom = room
    level = start[1] == end[1]
    axis, low, high = (0, left, right) if level else (1, top, bottom)
    near, far = (low, high) if start[axis] < end[axis] else (high, low)
    for one, other in ((start[axis], near), (far, end[axis])):
        if (other - one) * (far - near) > 0:
            a, b = (
                ((one, start[1]), (other, start[1]))
                if level
                else (
                    (start[0], one),
                    (start[0], other),
                )
            )
            yield a, b
