"""Grids on a page, found by their lines alone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Final

from layout.preflight.reading.finished import Leaf
from layout.preflight.reading.geometry import Box, Point, around_all
from layout.preflight.reading.marks import Contour, Paint

FEWEST: Final = 1
MOST: Final = 150
"""Cells side by side in a grid: several grids of 25 may lie on one board."""

SMALLEST: Final = 4.0
"""Points of the side of a cell."""

OFF: Final = 0.25
"""Points by which a line may lie off its place."""

SHORTEST: Final = 0.9
"""Cells that each inner line is long at the least, all its pieces together."""


@dataclass(frozen=True, slots=True)
class Segment:
    """A level or upright line: its place across, and where it starts and ends along."""

    at: float
    start: float
    end: float
    width: float


@dataclass(frozen=True)
class Grid:
    """A grid on a page: its corners in the middles of its outer lines, and its size in cells."""

    leaf: Leaf
    box: Box
    rows: int
    columns: int
    level: tuple[Segment, ...]
    upright: tuple[Segment, ...]

    @cached_property
    def side(self) -> float:
        """The side of a cell in points."""
        return self.box.width / self.columns

    def place(self, point: Point) -> Point:
        """A point in cells: right from the left edge, and down from the top."""
        return (point[0] - self.box.left) / self.side, (self.box.top - point[1]) / self.side


def find_grids(leaf: Leaf) -> list[Grid]:
    """The grids of a page, in reading order: from the top, and from the left."""
    frames = sorted(_frames(leaf), key=lambda box: -box.width * box.height)
    if not frames:
        return []
    level, upright = _segments(leaf.marks.paints)
    grids: list[Grid] = []
    for frame in frames:
        if not any(grid.box.holds(frame, grid.side / 2) for grid in grids):
            grid = _grid(leaf, frame, level, upright)
            grids += [grid] if grid else []
    return list(in_rows(grids))


def in_rows(grids: Sequence[Grid]) -> Iterator[Grid]:
    """Row after row, each from the left: a grid with clues above begins lower than its row."""
    row: list[Grid] = []
    for grid in sorted(grids, key=lambda each: -each.box.top):
        if row and grid.box.top < (row[0].box.top + row[0].box.bottom) / 2:
            yield from sorted(row, key=lambda each: each.box.left)
            row = []
        row.append(grid)
    yield from sorted(row, key=lambda each: each.box.left)


def reading_order(box: Box) -> tuple[int, float]:
    """What boxes are sorted by: from the top, and from the left where they begin as high."""
    return -round(box.top / 10), box.left


def _frames(leaf: Leaf) -> Iterator[Box]:
    """Boxes of closed lines of level and upright steps: each may be the frame of a grid."""
    for paint in leaf.marks.paints:
        if paint.stroke is None or paint.stroke.is_white:
            continue
        if all(contour.is_square and contour.closed for contour in paint.contours):
            box = around_all(contour.box for contour in paint.contours)
            if min(box.width, box.height) >= FEWEST * SMALLEST:
                yield box


def _segments(paints: Sequence[Paint]) -> tuple[list[Segment], list[Segment]]:
    """All level and all upright lines that are stroked."""
    level, upright = [], []
    for paint in paints:
        if paint.stroke is None or paint.stroke.is_white:
            continue
        for contour in paint.contours:
            if not contour.is_square:
                continue
            for (x1, y1), (x2, y2) in pairwise(contour.points):
                if abs(y1 - y2) < abs(x1 - x2):
                    level.append(Segment(y1, min(x1, x2), max(x1, x2), paint.width))
                elif x1 != x2 or y1 != y2:
                    upright.append(Segment(x1, min(y1, y2), max(y1, y2), paint.width))
    return level, upright


def _grid(
    leaf: Leaf, frame: Box, level: Sequence[Segment], upright: Sequence[Segment]
) -> Grid | None:
    """The grid of a frame: with the most columns for which there is each inner line."""
    inner_level = _within(level, frame.left, frame.right, frame.bottom, frame.top)
    inner_upright = _within(upright, frame.bottom, frame.top, frame.left, frame.right)
    most = min(MOST, int(frame.width / SMALLEST))
    for columns in range(most, FEWEST - 1, -1):
        side = frame.width / columns
        rows = round(frame.height / side)
        if rows < FEWEST or abs(rows * side - frame.height) > 2 * OFF:
            continue
        down = [frame.top - row * side for row in range(1, rows)]
        right = [frame.left + column * side for column in range(1, columns)]
        if _has_all(inner_upright, right, side) and _has_all(inner_level, down, side):
            return Grid(leaf, frame, rows, columns, tuple(inner_level), tuple(inner_upright))
    return None


def _within(
    segments: Sequence[Segment], start: float, end: float, low: float, high: float
) -> list[Segment]:
    return [
        each
        for each in segments
        if low - OFF <= each.at <= high + OFF
        and start - OFF <= each.start
        and each.end <= end + OFF
    ]


def _has_all(segments: Sequence[Segment], places: Sequence[float], side: float) -> bool:
    """Whether there is a line at each place."""
    for place in places:
        length = sum(each.end - each.start for each in segments if abs(each.at - place) <= OFF)
        if length < SHORTEST * side:
            return False
    return True


def inner_contours(grid: Grid) -> Iterator[tuple[Paint, Contour]]:
    """What is painted inside a grid but its own lines."""
    room = grid.box.grown(4 * OFF)
    for paint in grid.leaf.marks.paints:
        if room.common(paint.box).is_empty():
            continue
        for contour in paint.contours:
            if room.holds(contour.box) and not _is_line(grid, paint, contour):
                yield paint, contour


def _is_line(grid: Grid, paint: Paint, contour: Contour) -> bool:
    """Whether a contour lies on the lattice: a line of the grid, its frame, or a hole."""
    ground = paint.fill is not None and not paint.fill.is_white
    cleared = paint.fill is None and paint.stroke is not None and paint.stroke.is_white
    if not contour.is_square or ground or cleared:
        return False
    places = [grid.place(point) for point in contour.points]
    near = 2 * OFF / grid.side
    for (u1, v1), (u2, v2) in pairwise(places):
        at = v1 if abs(u1 - u2) > abs(v1 - v2) else u1
        if abs(at - round(at)) > near:
            return False
    return True
