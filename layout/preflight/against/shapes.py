"""Each shape's drawn path against the cells of its mark, and all ink in a grid against all marks.

What is drawn is taken as points along every contour, in cells. A mark wants ink near places that
follow from its cells alone; and ink that is near no mark's cells has no business in the grid. How
a style draws a mark does not matter, as long as it draws it there.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, dist
from typing import Final, TypeAlias

import numpy as np
import numpy.typing as npt

from layout.preflight.against.frames import HEAVIER
from layout.preflight.against.places import mean_of, middle_of
from layout.preflight.against.placing import Printed
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.geometry import Box, Point, box_around
from layout.preflight.reading.grids import Grid, inner_contours
from verify.board import Board, Cell
from verify.marks import Area, Badge, Border, Cage, Clue, Mark, Ray, Sign, Tint, Trail
from verify.puzzle import Puzzle

APART: Final = 0.12
"""Cells from one point of a contour to the next."""

NEAR: Final = 0.3
"""Cells from a place that wants ink to some of it."""

ASIDE: Final = 0.52
"""Cells that ink may lie off the middles and steps of its mark: half a cell and its line."""

CENTRED: Final = 0.12
"""Cells by which the middle of a disc may be off that of its cell."""

LEAST_END: Final = 0.2
"""Cells that a bulb, a circle or a ring measures at the least."""

INSET: Final = 0.12
"""Cells inside a group's edges where its outline is looked for."""

SIDES: Final = {"n": (0, -1), "e": (1, 0), "s": (0, 1), "w": (-1, 0)}
"""The sides of a cell, and the way there: right and down."""

Points: TypeAlias = npt.NDArray[np.float64]
"""Places in cells, one a row."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A contour in a grid: its corners and its box in cells, right and down.

    `seen` where it leaves ink; others clear the ground below a label.
    """

    points: tuple[Point, ...]
    box: Box
    closed: bool
    seen: bool

    @property
    def middle(self) -> Point:
        """The middle of its box."""
        return self.box.centre


def check_shapes(printed: Printed) -> Iterator[Finding]:
    """Marks that are not drawn where their cells are, and ink where no mark is."""
    for placed in printed.placed:
        puzzle = placed.expected.puzzle
        marks = [mark for mark in puzzle.marks() if not isinstance(mark, Border | Clue)]
        for grid in (placed.grid, placed.answer):
            if grid is not None:
                yield from _of_grid(puzzle, marks, grid)


def _of_grid(puzzle: Puzzle, marks: Sequence[Mark], grid: Grid) -> Iterator[Finding]:
    board, number = puzzle.board, grid.leaf.number
    drawn = list(_drawn(grid))
    ink = np.array([point for each in drawn if each.seen for point in _along(each)]).reshape(-1, 2)
    lines = np.array(list(_heavy(grid))).reshape(-1, 2)
    for mark in marks:
        if lack := _lack(mark, board, drawn, ink, lines):
            words = f"“{puzzle.title}”: {lack} is not drawn on {_cells(mark, board)}"
            yield Finding("shapes", number, words)
    bones = [_around(board, cell) for cell in board.absent]
    bones += [bone for mark in marks for bone in _bones(mark, board)]
    strange = _strange(ink, bones)
    if strange is not None:
        right, down = strange
        words = (
            f"“{puzzle.title}”: found a line in r{int(down) + 1}c{int(right) + 1}, where no mark is"
        )
        yield Finding("shapes", number, words)


# What is drawn


def _drawn(grid: Grid) -> Iterator[Drawn]:
    """The contours in a grid, without its own lines."""
    for paint, contour in inner_contours(grid):
        points = tuple(map(grid.place, contour.points))
        yield Drawn(points, box_around(points), contour.closed, paint.is_seen)


def _along(drawn: Drawn) -> Iterator[Point]:
    """Points along a contour, close to one another."""
    yield drawn.points[0]
    for one, other in pairwise(drawn.points):
        yield from _between(one, other)


def _between(one: Point, other: Point) -> Iterator[Point]:
    """Points from one to another, without the first."""
    count = ceil(dist(one, other) / APART)
    for step in range(1, count + 1):
        share = step / count
        yield one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


def _heavy(grid: Grid) -> Iterator[Point]:
    """Points along the grid's lines but the thinnest, and along its frame."""
    both = [*grid.level, *grid.upright]
    thin = min((each.width for each in both), default=0.0)
    for lines, level in ((grid.level, True), (grid.upright, False)):
        for line in lines:
            if line.width > HEAVIER * thin:
                ends = ((line.start, line.at), (line.end, line.at))
                one, other = ends if level else (ends[0][::-1], ends[1][::-1])
                yield from _between(grid.place(one), grid.place(other))


# What a mark asks for


def _lack(mark: Mark, board: Board, drawn: Sequence[Drawn], ink: Points, lines: Points) -> str:
    """What of a mark is not where it should be, in a word; nothing where all is.

    `lines` are the heavy ones of the grid: an outline may lie on them.
    """
    match mark:
        case Trail():
            return _trail_lack(mark, board, drawn, ink)
        case Cage(cells=cells) | Area(cells=cells):
            ruled = np.concatenate([ink, lines]) if len(lines) else ink
            return "" if _all_near(_rim(board, cells), ruled) else f"the outline of a {mark.role}"
        case Tint(cell=cell, shape="disc" | "square"):
            found = _disc_at(middle_of(board, cell), drawn, 0.1)
            return "" if found else f"the mark of {mark.role}"
        case Tint(cell=cell):
            found = _all_near(_rim(board, (cell,)), ink)
            return "" if found else f"the mark of {mark.role}"
        case Badge(cells=cells):
            found = _disc_at(mean_of(board, cells), drawn, 0.05, seen=False)
            return "" if found else f"a {mark.role}"
        case Sign(cells=(_, less)):
            middle = mean_of(board, mark.cells)
            signs = [each for each in drawn if dist(each.middle, middle) <= CENTRED]
            chevrons = [each.points for each in signs if len(each.points) == 3]
            tips = [_nearer(points[1], points[0], middle_of(board, less)) for points in chevrons]
            return "" if tips and all(tips) else f"the sign {mark.role}"
        case Ray(cells=cells):
            middles = [middle_of(board, cell) for cell in cells]
            return "" if _all_near(middles, ink) else f"the line of {mark.role}"
    return ""


def _trail_lack(mark: Trail, board: Board, drawn: Sequence[Drawn], ink: Points) -> str:
    """Steps without ink, then ends without what stands there."""
    steps = {step for branch in mark.branches for step in pairwise(branch)}
    free = [step for step in steps if not {*step} <= {*mark.ring}]
    if not _all_near((mean_of(board, step) for step in free), ink):
        return f"a step of a {mark.role}"
    start = middle_of(board, mark.branches[0][0])
    ends = [branch[-1] for branch in mark.branches]
    if mark.start == "bulb" and not _disc_at(start, drawn, LEAST_END):
        return f"the bulb of a {mark.role}"
    circles = [branch[0] for branch in mark.branches] if mark.start == "circle" else []
    circles += ends if mark.end == "circle" else []
    if not all(_disc_at(middle_of(board, cell), drawn, LEAST_END) for cell in circles):
        return f"the circle of a {mark.role}"
    if mark.end == "arrowhead" and not all(_headed(middle_of(board, end), drawn) for end in ends):
        return f"the head of a {mark.role}"
    if mark.ring and not _disc_at(mean_of(board, mark.ring), drawn, LEAST_END):
        return f"the ring of a {mark.role}"
    return ""


def _disc_at(middle: Point, drawn: Sequence[Drawn], least: float, seen: bool = True) -> bool:
    """Whether a closed shape lies around a place, at least so large, and is seen if it has to."""
    return any(
        each.closed
        and each.seen >= seen
        and dist(each.middle, middle) <= CENTRED
        and min(each.box.width, each.box.height) >= least
        for each in drawn
    )


def _headed(end: Point, drawn: Sequence[Drawn]) -> bool:
    """Whether an arrow's tip lies in a cell: a line of three points that turns back there."""
    return any(
        len(each.points) == 3
        and dist(each.points[1], end) <= ASIDE
        and dist(each.points[0], each.points[2]) < 2 * dist(each.points[0], each.points[1])
        for each in drawn
    )


def _nearer(one: Point, other: Point, place: Point) -> bool:
    return dist(one, place) < dist(other, place)


def _all_near(places: Iterable[Point], ink: Points) -> bool:
    """Whether there is ink near each place."""
    return all(len(ink) and _distances(place, ink).min() <= NEAR for place in places)


def _distances(place: Point, ink: Points) -> Points:
    return _lengths(ink - np.array(place))


def _lengths(ways: Points) -> Points:
    lengths: Points = np.hypot(ways[:, 0], ways[:, 1])
    return lengths


def _rim(board: Board, cells: Sequence[Cell]) -> Iterator[Point]:
    """Places just inside the middle of each outer edge of a group."""
    inside = set(cells)
    for cell in cells:
        for step, (right, down) in SIDES.items():
            if board.step(cell, step) not in inside:
                x, y = middle_of(board, cell)
                yield x + right * (0.5 - INSET), y + down * (0.5 - INSET)


# Where a mark's ink may lie


@dataclass(frozen=True, slots=True)
class Bone:
    """A stretch from one place to another, or a place alone; ink lies within `reach` of it."""

    start: Point
    end: Point
    reach: float


def _bones(mark: Mark, board: Board) -> Iterator[Bone]:
    """The stretches of a mark that its ink may be near to."""
    match mark:
        case Trail():
            for branch in mark.branches:
                for one, other in pairwise(branch):
                    yield Bone(middle_of(board, one), middle_of(board, other), ASIDE)
            for cell in mark.ring:
                yield _around(board, cell)
            for one, other in pairwise(mark.ring):
                yield Bone(middle_of(board, one), middle_of(board, other), ASIDE)
        case Cage(cells=cells) | Area(cells=cells):
            for cell in cells:
                yield _around(board, cell)
        case Tint(cell=cell):
            yield _around(board, cell)
        case Badge(cells=cells) | Sign(cells=cells):
            middle = mean_of(board, cells)
            yield Bone(middle, middle, ASIDE)
        case Ray(cells=cells):
            yield Bone(middle_of(board, cells[0]), middle_of(board, cells[-1]), 0.75)


def _around(board: Board, cell: Cell) -> Bone:
    """All of a cell: its corners are farthest from its middle."""
    middle = middle_of(board, cell)
    return Bone(middle, middle, 0.75)


def _strange(ink: Points, bones: Sequence[Bone]) -> Point | None:
    """A point that is near no bone."""
    left = ink
    for bone in bones:
        if not len(left):
            return None
        left = left[_off(left, bone) > bone.reach]
    return (float(left[0][0]), float(left[0][1])) if len(left) else None


def _off(points: Points, bone: Bone) -> Points:
    """How far points are from a stretch."""
    start, way = np.array(bone.start), np.array(bone.end) - np.array(bone.start)
    length = float(way @ way)
    shares = np.clip((points - start) @ way / length, 0.0, 1.0) if length else np.zeros(len(points))
    return _lengths(points - (start + shares[:, None] * way))


def _cells(mark: Mark, board: Board) -> str:
    """The cells of a mark by name, the first ones."""
    cells = [cell for branch in mark.branches for cell in branch] if isinstance(mark, Trail) else []
    cells = cells or list(getattr(mark, "cells", ())) or [mark.cell]  # type: ignore[union-attr]
    names = [board.name(cell) for cell in cells]
    return " ".join(names[:6]) + (" ..." if len(names) > 6 else "")
