"""The outline of a group of cells, and the same outline drawn in from the edges."""

from collections.abc import Iterable
from typing import TypeAlias

from layout.marks.lattice import Lattice
from layout.picture.items import Point
from verify.board import Board, Cell

GridPoint: TypeAlias = tuple[int, int]
"""A crossing of grid lines: row and column of the cell to its lower right."""

SIDES = (
    ((-1, 0), (0, 0), (0, 1)),
    ((0, 1), (0, 1), (1, 1)),
    ((1, 0), (1, 1), (1, 0)),
    ((0, -1), (1, 0), (0, 0)),
)
"""For each side of a cell: the neighbour beyond it, and the corners that it runs between.

Clockwise, so that the inside lies to the right.
"""


def outlines(board: Board, cells: Iterable[Cell]) -> list[list[GridPoint]]:
    """The closed outlines of a group, clockwise around cells, as their corners alone."""
    ahead = _sides(board, frozenset(cells))
    loops = []
    while ahead:
        start = min(ahead)
        loop = [start]
        step = min(ahead[start])
        while True:
            ends = ahead[loop[-1]]
            ends.remove(step)
            if not ends:
                del ahead[loop[-1]]
            if step == start:
                break
            loop.append(step)
            step = _rightmost(loop[-2], step, ahead[step])
        loops.append(_corners_of(loop))
    return loops


def inset(loop: list[GridPoint], distance: float, lattice: Lattice) -> list[Point]:
    """The outline's corners in millimetres, drawn in from the cells' edges."""
    points = []
    for before, corner, after in zip(loop[-1:] + loop, loop, loop[1:] + loop[:1], strict=False):
        x, y = lattice.corner(*corner)
        for one, other in ((before, corner), (corner, after)):
            down, right = _direction(one, other)
            x, y = x - down * distance, y + right * distance
        points.append((x, y))
    return points


def _sides(board: Board, cells: frozenset[Cell]) -> dict[GridPoint, list[GridPoint]]:
    """The sides that have no cell of the group beyond them, by the corner they start from."""
    ahead: dict[GridPoint, list[GridPoint]] = {}
    for cell in sorted(cells):
        row, column = board.place(cell)
        for (down, right), (r1, c1), (r2, c2) in SIDES:
            beyond = row + down, column + right
            if not (board.holds(*beyond) and board.cell(*beyond) in cells):
                start, end = (row + r1, column + c1), (row + r2, column + c2)
                ahead.setdefault(start, []).append(end)
    return ahead


def _rightmost(before: GridPoint, corner: GridPoint, ends: list[GridPoint]) -> GridPoint:
    """Which way on: where two cells touch at a corner alone, each keeps its own outline."""
    down, right = _direction(before, corner)
    turned_right = corner[0] + right, corner[1] - down
    return turned_right if turned_right in ends else ends[0]


def _direction(start: GridPoint, end: GridPoint) -> tuple[int, int]:
    """Rows down and columns right of the way from one corner to another, each -1, 0 or 1."""
    down, right = end[0] - start[0], end[1] - start[1]
    return (down > 0) - (down < 0), (right > 0) - (right < 0)


def _corners_of(loop: list[GridPoint]) -> list[GridPoint]:
    """The loop without the crossings that it runs straight through."""
    around = zip(loop[-1:] + loop, loop, loop[1:] + loop[:1], strict=False)
    return [
        corner
        for before, corner, after in around
        if _direction(before, corner) != _direction(corner, after)
    ]
