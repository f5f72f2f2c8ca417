"""The lines of each grid: one between any two cells, a heavy one between boxes or regions."""

from collections.abc import Iterator
from functools import lru_cache
from typing import Final, TypeAlias

from layout.preflight.against.placing import Printed
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.grids import OFF, Grid, Segment
from verify.board import Board
from verify.marks import Area, Border, Cage
from verify.puzzle import Puzzle

Edge: TypeAlias = tuple[int, int]
"""Two cells side by side, the upper or left one first."""

HEAVIER: Final = 1.4
"""How many times as wide as the thinnest line of its grid a heavy line is at the least."""


def check_frames(printed: Printed) -> Iterator[Finding]:
    """Lines that are missing, and heavy lines that are not where boxes and regions meet."""
    for placed in printed.placed:
        for grid in (placed.grid, placed.answer):
            if grid is not None:
                yield from _of_grid(placed.expected.puzzle, grid)


def _of_grid(puzzle: Puzzle, grid: Grid) -> Iterator[Finding]:
    board, widths = puzzle.board, dict(_widths(grid, puzzle.board))
    inner = set(_edges(board))
    missing = sorted(inner - widths.keys())
    if missing:
        words = f"“{puzzle.title}”: no line between {_named(board, missing[0])}"
        yield Finding("frames", grid.leaf.number, words)
    thin = min((widths[edge] for edge in inner & widths.keys()), default=0.0)
    heavy = {edge for edge in inner & widths.keys() if widths[edge] > HEAVIER * thin}
    wanted = _bordered(puzzle) & inner - set(missing)
    # Where every line inside is one of a border, there is no thinner one to tell them by.
    heavy = wanted if wanted == inner else heavy - _caged(puzzle) | heavy & wanted
    for edge in sorted(heavy ^ wanted)[:1]:
        found = "a heavy line" if edge in heavy else "a thin line"
        words = f"“{puzzle.title}”: found {found} between {_named(board, edge)}"
        yield Finding("frames", grid.leaf.number, words)


@lru_cache(64)
def _edges(board: Board) -> tuple[Edge, ...]:
    """Every two cells of a board that lie side by side."""
    return tuple(
        (cell, other)
        for cell in board.cells
        for step in ("e", "s")
        if (other := board.step(cell, step)) is not None
    )


def _bordered(puzzle: Puzzle) -> set[Edge]:
    """Where a box or a region ends."""
    return _outlined(puzzle, Border)


def _caged(puzzle: Puzzle) -> set[Edge]:
    """Where a cage or an area ends: its own line may lie on that of the grid."""
    return _outlined(puzzle, Cage) | _outlined(puzzle, Area)


def _outlined(puzzle: Puzzle, kind: type[Border | Cage | Area]) -> set[Edge]:
    """The edges between cells of which only one is in a mark of a kind."""
    edges: set[Edge] = set()
    for mark in puzzle.marks():
        if isinstance(mark, kind):
            inside = set(mark.cells)
            edges |= {
                edge for edge in _edges(puzzle.board) if (edge[0] in inside) != (edge[1] in inside)
            }
    return edges


def _widths(grid: Grid, board: Board) -> Iterator[tuple[Edge, float]]:
    """The widest line between any two cells; thin lines come first."""
    side = grid.side
    for segment in sorted(grid.upright, key=lambda each: each.width):
        column = round((segment.at - grid.box.left) / side)
        if abs(grid.box.left + column * side - segment.at) <= OFF and 0 < column < board.columns:
            for row in _run(segment, side, grid.box.top, -1):
                yield (board.cell(row, column - 1), board.cell(row, column)), segment.width
    for segment in sorted(grid.level, key=lambda each: each.width):
        row = round((grid.box.top - segment.at) / side)
        if abs(grid.box.top - row * side - segment.at) <= OFF and 0 < row < board.rows:
            for column in _run(segment, side, grid.box.left, 1):
                yield (board.cell(row - 1, column), board.cell(row, column)), segment.width


def _run(segment: Segment, side: float, origin: float, way: int) -> range:
    """The cells along a line whose edge it covers whole."""
    ends = sorted((way * (segment.start - origin) / side, way * (segment.end - origin) / side))
    near = OFF / side
    first, last = ends[0] - near, ends[1] + near
    return range(max(0, -int(-first // 1)), int(last))


def _named(board: Board, edge: Edge) -> str:
    return f"{board.name(edge[0])} and {board.name(edge[1])}"
