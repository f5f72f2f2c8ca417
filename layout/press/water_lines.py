"""Water lines: the shapes of a puzzle as land, and lines around it as old charts draw a shore.

Each line keeps the same distance from the shore all along. They stand close at the shore, and
wider and finer the further out they are.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.picture.items import Contour, Fill, Item, Point, Stroke
from layout.picture.shapes import disc, polyline
from verify.board import Board, Cell
from verify.marks import Trail
from verify.puzzle import Puzzle

STEM: Final = 0.15
BULB: Final = 0.38
LONE: Final = 0.3
"""Half the width of a shape, and how far a bulb and a lone cell reach, in sides of a cell."""

FIRST_GAP: Final = 1.15
"""From the shore to the first line, and between that and the next, in millimetres."""

WIDENING: Final = 1.045
WIDEST_GAP: Final = 5.0
"""By how much each gap is wider than the one before it, and the most that it may be."""

NEAR_LINE: Final = 0.55 * 25.4 / 72
FAR_LINE: Final = 0.3 * 25.4 / 72
"""How wide the first line is and the farthest: nowhere finer than presses hold."""

FAR: Final = 120.0
"""Where the lines are at their finest, in millimetres from the shore."""

SEA: Final = 1.0
LAND: Final = 0.0
"""Greys."""


@dataclass(frozen=True, slots=True)
class Land:
    """A piece of land: all within `reach` of a run of points, or of a single one.

    In sides of a cell, from the board's upper left corner. Every run has the same reach.
    """

    points: tuple[Point, ...]
    reach: float


def land_of(puzzle: Puzzle) -> tuple[Land, ...]:
    """The trails of a puzzle; where it has none, its givens."""
    board = puzzle.board
    trails = [mark for mark in puzzle.marks() if isinstance(mark, Trail)]
    lands = [piece for trail in trails for piece in _of_trail(trail, board)]
    if not lands:
        given = (cell for cell, digit in enumerate(puzzle.givens) if digit)
        lands = [Land((_middle(cell, board),), LONE) for cell in given]
    return tuple(dict.fromkeys(lands))


def _of_trail(trail: Trail, board: Board) -> Iterator[Land]:
    """A run for each branch; bulbs and circles at their ends."""
    for branch in trail.branches:
        yield Land(tuple(_middle(cell, board) for cell in branch), STEM)
    if trail.start != "plain":
        yield Land((_middle(trail.branches[0][0], board),), BULB)
    if trail.end == "circle":
        yield from (Land((_middle(branch[-1], board),), BULB) for branch in trail.branches)
    yield from (Land((_middle(cell, board),), BULB) for cell in trail.ring)


def _middle(cell: Cell, board: Board) -> Point:
    row, column = divmod(cell, board.columns)
    return column + 0.5, row + 0.5


def bounds(lands: Sequence[Land]) -> tuple[float, float, float, float]:
    """The least and the most of x, and of y, that the land reaches."""
    xs = [(x, land.reach) for land in lands for x, _ in land.points]
    ys = [(y, land.reach) for land in lands for _, y in land.points]
    return (
        min(x - reach for x, reach in xs),
        max(x + reach for x, reach in xs),
        min(y - reach for y, reach in ys),
        max(y + reach for y, reach in ys),
    )


def water_lines(
    lands: Sequence[Land], origin: Point, side: float, farthest: float
) -> Iterator[Item]:
    """The land with its upper left corner at a point, and all lines out to a distance.

    They are painted from the outermost in, each as an area that the sea inside it is laid over.
    """
    for distance, width in reversed(list(_lines(farthest))):
        yield from _shore(lands, origin, side, distance + width / 2, LAND)
        yield from _shore(lands, origin, side, distance - width / 2, SEA)
    yield from _shore(lands, origin, side, 0.0, LAND)


def _lines(farthest: float) -> Iterator[tuple[float, float]]:
    """How far each line is from the shore, and how wide."""
    distance, gap = FIRST_GAP, FIRST_GAP
    while distance < farthest:
        share = min(distance / FAR, 1.0)
        yield distance, NEAR_LINE + (FAR_LINE - NEAR_LINE) * share
        distance += gap
        gap = min(gap * WIDENING, WIDEST_GAP)


def _shore(
    lands: Sequence[Land], origin: Point, side: float, distance: float, grey: float
) -> Iterator[Item]:
    """All that lies within a distance of the land: stems as broad lines, the rest as discs."""
    stems: list[Contour] = []
    discs: list[Contour] = []
    for land in lands:
        points = [(origin[0] + x * side, origin[1] + y * side) for x, y in land.points]
        if len(points) > 1:
            stems.append(polyline(points))
        else:
            discs.append(disc(points[0], land.reach * side + distance))
    if stems:
        width = 2 * (STEM * side + distance)
        yield Stroke(tuple(stems), width, grey, cap="round", join="round")
    if discs:
        yield Fill(tuple(discs), grey)
