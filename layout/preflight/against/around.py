"""The clues around a grid: labels and arrows, each beside its row, its column or its diagonal."""

from collections.abc import Iterator, Sequence
from typing import Final

from layout.preflight.against.cells import put_together, token_of
from layout.preflight.against.labels import label_of
from layout.preflight.against.placing import Printed
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.geometry import Box, Point
from layout.preflight.reading.grids import Grid
from layout.preflight.reading.marks import Letter
from verify.board import COMPASS, Board
from verify.marks import Clue
from verify.puzzle import Puzzle

AROUND: Final = 3.0
"""Cells around a grid in which clues may stand."""


def check_clues(printed: Printed) -> Iterator[Finding]:
    """Clues that are missing, are others, or stand or point elsewhere."""
    for placed in printed.placed:
        puzzle = placed.expected.puzzle
        clues = [mark for mark in puzzle.marks() if isinstance(mark, Clue)]
        for grid in (placed.grid, placed.answer):
            if clues and grid is not None:
                for words in _of_grid(clues, puzzle, grid):
                    yield Finding("clues", grid.leaf.number, f"“{puzzle.title}”: {words}")


def _of_grid(clues: Sequence[Clue], puzzle: Puzzle, grid: Grid) -> Iterator[str]:
    tokens, heads = list(_tokens(grid)), list(_heads(grid))
    for clue in clues:
        strip, wanted = _strip(clue, puzzle.board), "".join(label_of(clue, puzzle).split())
        there = [text for text, middle in tokens if strip.has(middle)]
        if wanted and wanted not in there and wanted != "".join(there):
            found = " ".join(there) or "nothing"
            yield f"found {found} at {_told(clue)}, expected {wanted}"
        if clue.arrow:
            ways = [way for middle, way in heads if strip.has(middle)]
            if not any(_is_along(way, clue) for way in ways):
                yield f"no arrow points {clue.arrow} at {_told(clue)}"


def _strip(clue: Clue, board: Board) -> Box:
    """Where a clue may stand, in cells: outside its edge, beside its row or column."""
    row, column = clue.outside.row, clue.outside.column
    if row in (-1, board.rows):
        top, bottom = (-AROUND, 0.0) if row == -1 else (board.rows, board.rows + AROUND)
        return Box(column, top, column + 1, bottom)
    left, right = (-AROUND, 0.0) if column == -1 else (board.columns, board.columns + AROUND)
    return Box(left, row, right, row + 1)


def _told(clue: Clue) -> str:
    """The place of a clue: the row or column that it stands beside, and the way it looks."""
    row, column = clue.outside.row + 1, clue.outside.column + 1
    return f"the clue at row {row}, column {column} that looks {clue.outside.direction}"


def _tokens(grid: Grid) -> Iterator[tuple[str, Point]]:
    """Labels around a grid, and their middles in cells."""
    room = grid.box.grown(AROUND * grid.side)
    letters = [each for each in grid.leaf.marks.letters if _is_beside(each, grid.box, room)]
    for label in put_together(letters):
        token = token_of(label, grid)
        yield token.text, token.middle


def _is_beside(letter: Letter, box: Box, room: Box) -> bool:
    if letter.box is None or letter.ink.is_white:
        return False
    return room.has(letter.box.centre) and not box.has(letter.box.centre)


def _heads(grid: Grid) -> Iterator[tuple[Point, Point]]:
    """The heads of arrows around a grid: the tip, and which way it points, right and down."""
    for paint in grid.leaf.marks.paints:
        if paint.is_seen and not grid.box.holds(paint.box):
            for contour in paint.contours:
                if len(contour.points) == 3 and not contour.closed:
                    (x1, y1), tip, (x2, y2) = map(grid.place, contour.points)
                    yield tip, (tip[0] - (x1 + x2) / 2, tip[1] - (y1 + y2) / 2)


def _is_along(way: Point, clue: Clue) -> bool:
    """Whether a head points as its clue says: onto the board, or away from it."""
    down, right = COMPASS[clue.outside.direction]
    ahead = way[0] * right + way[1] * down
    return ahead > 0 if clue.arrow == "in" else ahead < 0
