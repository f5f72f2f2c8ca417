"""The lines of the grid: hairlines, heavy lines along borders, and the frame.

The frame runs around all cells: around several grids as one outline, and around holes.

Hairlines lie only where no heavy line does. Heavy lines end in squares of half their width,
so that corners and joins close exactly; those that end at the frame end inside it.
"""

from collections.abc import Iterable, Iterator
from functools import lru_cache

from layout.marks.lattice import Lattice
from layout.marks.outline import outlines
from layout.picture.items import Contour, Fill, Item, Path, Stroke
from layout.picture.shapes import polyline, rectangle
from layout.style.board import LineLook
from verify.board import Board, Cell


@lru_cache(maxsize=256)
def grid_lines(
    lattice: Lattice, borders: tuple[tuple[Cell, ...], ...], look: LineLook
) -> tuple[Item, ...]:
    """Hairlines, then heavy lines around the border blocks, then the frame."""
    board, side = lattice.board, lattice.side
    blocks = _blocks(board, (*borders, *_grids(board)))
    holes = _holes(board)
    items: list[Item] = [Fill(_squares(lattice, holes), 1 - look.hole)] if holes else []
    hair, heavy = tuple(_lines(lattice, blocks, False)), tuple(_lines(lattice, blocks, True))
    if hair:
        items.append(Stroke(hair, look.hairline.at(side)))
    if heavy:
        items.append(Stroke(heavy, look.box.at(side), cap="square"))
    frame = tuple(
        polyline([lattice.corner(*corner) for corner in loop], closed=True)
        for loop in outlines(board, board.cells)
    )
    return (*items, Stroke(frame, look.frame.at(side)))


def _holes(board: Board) -> list[Cell]:
    """The absent places that cells enclose, not those beside several grids."""
    beside = {
        place
        for place in board.absent
        if place // board.columns in (0, board.rows - 1)
        or place % board.columns in (0, board.columns - 1)
    }
    edge = list(beside)
    while edge:
        place = edge.pop()
        near = [place - board.columns, place + board.columns, place - 1, place + 1]
        more = {each for each in near if each in board.absent} - beside
        beside |= more
        edge += more
    return sorted(board.absent - beside)


def _squares(lattice: Lattice, places: Iterable[Cell]) -> Path:
    """The whole of each place."""
    side, columns = lattice.side, lattice.board.columns
    corners = (lattice.corner(*divmod(place, columns)) for place in places)
    return tuple(rectangle(x, y, side, side) for x, y in corners)


def _grids(board: Board) -> Iterator[tuple[Cell, ...]]:
    """The cells of each grid, where several lie on the board: each has its own border."""
    for top, left, rows, columns in board.frames if board.grids else ():
        yield tuple(
            board.cell(row, column)
            for row in range(top, top + rows)
            for column in range(left, left + columns)
        )


def _blocks(board: Board, borders: Iterable[tuple[Cell, ...]]) -> list[frozenset[int]]:
    """For each cell the borders that it lies within."""
    within: list[set[int]] = [set() for _ in board.places]
    for index, cells in enumerate(borders):
        for cell in cells:
            within[cell].add(index)
    return [frozenset(each) for each in within]


def _lines(lattice: Lattice, blocks: list[frozenset[int]], heavy: bool) -> Iterator[Contour]:
    """The inner lines of one kind, level then upright, each run as one line."""
    board = lattice.board

    def between(one: Cell, other: Cell) -> bool:
        there = one not in board.absent and other not in board.absent
        return there and (blocks[one] != blocks[other]) == heavy

    for row in range(1, board.rows):
        cells = [board.cell(row, column) for column in range(board.columns)]
        kinds = [between(cell, cell - board.columns) for cell in cells]
        for start, end in _runs(kinds):
            yield polyline([lattice.corner(row, start), lattice.corner(row, end)])
    for column in range(1, board.columns):
        cells = [board.cell(row, column) for row in range(board.rows)]
        kinds = [between(cell, cell - 1) for cell in cells]
        for start, end in _runs(kinds):
            yield polyline([lattice.corner(start, column), lattice.corner(end, column)])


def _runs(kinds: list[bool]) -> Iterator[tuple[int, int]]:
    """Start and end of each run of true values."""
    start = None
    for index, kind in enumerate([*kinds, False]):
        if kind and start is None:
            start = index
        elif not kind and start is not None:
            yield start, index
            start = None
