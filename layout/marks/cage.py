"""Cages: a dashed outline just inside the edges of a group of cells, its label in a corner."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Final, TypeAlias

from layout.marks.lattice import Lattice
from layout.marks.outline import inset, outlines
from layout.picture.items import Contour, Point, Stroke, Text
from layout.picture.order import Layer, Painted
from layout.picture.shapes import along, polyline, unit
from layout.style.board import CageLook
from layout.type.fonts import font
from verify.board import Board
from verify.marks import Cage

LOWEST_FOOT: Final = 0.335
"""How far down its cell a label may reach, as a share: below that a digit wants its room."""

Box: TypeAlias = tuple[float, float, float, float]
"""Left, top, right and bottom."""


def draw(mark: Cage, look: CageLook, lattice: Lattice) -> Iterator[Painted]:
    """The dashes, which leave room for the label, and the label."""
    label = _label(mark, look, lattice)
    room = _room(label, look, lattice) if label else None
    # What is left of a cut dash must still read as a dash.
    stub = look.dash * lattice.side / 3
    dashes: list[Contour] = []
    for loop in outlines(lattice.board, mark.cells):
        for dash in _dashes(inset(loop, look.inset * lattice.side, lattice), look, lattice):
            dashes += _clear_of(dash, room, stub)
    yield Layer.CAGE, Stroke(tuple(dashes), look.line.at(lattice.side), 1 - look.ink)
    if label:
        yield Layer.LABEL, label


def tell(mark: Cage, board: Board) -> str:
    """The role, the label and the cells."""
    label = f" {mark.label}" if mark.label else ""
    return f"{mark.role}{label}: {' '.join(map(board.name, mark.cells))}"


def _label(mark: Cage, look: CageLook, lattice: Lattice) -> Text | None:
    """The label, its ink in the upper left corner of the first cell."""
    if not mark.label:
        return None
    face = font(look.label)
    left, _, right, top = face.bounds(mark.label)
    tallest = (LOWEST_FOOT - look.label_corner) * lattice.side
    size = min(
        min(look.label_height.at(lattice.side), tallest) / face.digit_height,
        (1 - 2 * look.label_corner) * lattice.side / (right - left),
    )
    x, y = lattice.corner(*lattice.board.place(min(mark.cells)))
    corner = look.label_corner * lattice.side
    return Text(
        x + corner - left * size,
        y + corner + top * size,
        mark.label,
        look.label,
        size,
        face.advances(mark.label),
    )


def _room(label: Text, look: CageLook, lattice: Lattice) -> Box:
    """The label's ink and some white around it."""
    left, bottom, right, top = (each * label.size for each in font(label.font).bounds(label.text))
    clear = look.gap * lattice.side / 2 + look.line.at(lattice.side) / 2
    return (
        label.x + left - clear,
        label.y - top - clear,
        label.x + right + clear,
        label.y - bottom + clear,
    )


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


def _clear_of(dash: list[Point], room: Box | None, stub: float) -> Iterator[Contour]:
    """What is left of a dash outside the room for the label, but for mere stubs."""
    if room is None or not any(_touches(step, room) for step in pairwise(dash)):
        yield polyline(dash)
        return
    for start, end in pairwise(dash):
        for rest in _outside(start, end, room):
            if abs(rest[0][0] - rest[1][0]) + abs(rest[0][1] - rest[1][1]) > stub:
                yield polyline(rest)


def _touches(step: tuple[Point, Point], room: Box) -> bool:
    """Whether an upright or level line enters the room."""
    (x1, y1), (x2, y2) = step
    left, top, right, bottom = room
    return max(x1, x2) > left and min(x1, x2) < right and max(y1, y2) > top and min(y1, y2) < bottom


def _outside(start: Point, end: Point, room: Box) -> Iterator[list[Point]]:
    """The parts of an upright or level line before and after the room."""
    if not _touches((start, end), room):
        yield [start, end]
        return
    left, top, right, bottom = room
    (x1, y1), (x2, y2) = min(start, end), max(start, end)
    if y1 == y2:
        parts = [((x1, y1), (left, y1)), ((right, y1), (x2, y1))]
    else:
        parts = [((x1, y1), (x1, top)), ((x1, bottom), (x1, y2))]
    yield from ([a, b] for a, b in parts if a < b)
