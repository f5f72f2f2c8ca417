"""How the small boards of a page are arranged: in which columns and rows, and how large."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final, TypeAlias

from layout.pages.common.book import Numbered
from layout.pages.common.design import Design
from layout.pages.common.misfit import Misfits
from layout.pages.common.page import Labels
from layout.pages.common.small_boards import (
    BoardPlace,
    SmallBoard,
    SmallBoardLook,
    board_items,
    set_boards,
)
from layout.picture.items import Anchor, Item

GRID_SHARE: Final = 0.8
"""The part of a small board's depth that is its grid, as a guess to choose an arrangement by."""

TALL: Final = 1.2
"""From this ratio of depth to width on, a page has no more columns than rows if it can."""

NEARLY: Final = 0.8
"""It can where grids keep this share of the size that they have in more columns."""

ROW_GAP: Final = 0.9
"""White between rows of boards, in gaps."""

WIDEST_ROW_GAP: Final = 5.0
"""Rows of boards that have room to spare are kept no further apart, in gaps."""

WORTH_IT: Final = 0.97
"""An arrangement that is tried earlier is taken where its grids are this share of the largest."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Small boards in columns and rows.

    `side` is the most that a grid may take, `above` what words take over it; `across` leads from
    one column to the next and `down` from one row to the next, all in millimetres.
    """

    columns: int
    rows: int
    side: float
    above: float
    across: float
    down: float

    def items(
        self,
        boards: Sequence[SmallBoard],
        look: SmallBoardLook,
        design: Design,
        labels: Labels,
        first: int = 0,
    ) -> Iterator[Item]:
        """All boards of a page in their places, from the row `first` on."""
        for index, board in enumerate(boards):
            row, column = divmod(index, self.columns)
            x, y = column * self.across, (first + row) * self.down + self.above
            yield from board_items(board, BoardPlace(x, y, self.side), look, design, labels)

    def anchor(self, index: int, name: str, first: int = 0) -> Anchor:
        """The anchor of a board, at the height of its words."""
        return Anchor(name, (first + index // self.columns) * self.down)


LaidBoards: TypeAlias = tuple[Arrangement, list[SmallBoard]]
"""An arrangement and all boards."""


def shape_of(per_page: int, depth: float, design: Design) -> tuple[int, int]:
    """Columns and rows of so many boards: those with the largest grids, as a guess.

    A tall page rather has two across and three down, even where three across were a little larger.
    """
    shapes = [
        (columns, per_page // columns)
        for columns in range(1, per_page + 1)
        if per_page % columns == 0
    ]
    sides = {shape: _guessed_side(shape, depth, design) for shape in shapes}
    best = max(shapes, key=lambda shape: sides[shape])
    if design.depth < TALL * design.measure:
        return best
    tall = [shape for shape in shapes if shape[0] <= shape[1]]
    tallest = max(tall, key=lambda shape: sides[shape])
    return tallest if sides[tallest] >= NEARLY * sides[best] else best


def _guessed_side(shape: tuple[int, int], depth: float, design: Design) -> float:
    """How wide grids come out in so many columns and rows, before any words are set."""
    columns, rows = shape
    gap = design.page.gap
    return min((design.measure + gap) / columns, (depth + gap) / rows * GRID_SHARE)


def lay_boards(
    puzzles: Sequence[Numbered],
    shape: tuple[int, int],
    depth: float,
    look: SmallBoardLook,
    design: Design,
) -> LaidBoards:
    """The boards of all pages in one arrangement, with the largest grids that it can have.

    Where grids come out about as large, titles have as few lines as they can. Raises Misfits
    for words that are too long.
    """
    attempts = [
        partial(_laid, puzzles, shape, depth, replace(look, tight=tight), design, wide=wide)
        for wide in (False, True)
        for tight in (False, True)
    ]
    laid = list(_successes(attempts))
    largest = max(arrangement.side for arrangement, _ in laid)
    large = [each for each in laid if each[0].side >= WORTH_IT * largest]
    return min(large, key=lambda each: most_title_lines(each[1]))


def _successes(attempts: Sequence["partial[LaidBoards]"]) -> Iterator[LaidBoards]:
    """What came of the attempts whose words were not too long; Misfits where none are left."""
    succeeded, misfits = False, Misfits(())
    for attempt in attempts:
        try:
            yield attempt()
            succeeded = True
        except Misfits as found:
            misfits = found
    if not succeeded:
        raise misfits


def _laid(
    puzzles: Sequence[Numbered],
    shape: tuple[int, int],
    depth: float,
    look: SmallBoardLook,
    design: Design,
    *,
    wide: bool,
) -> LaidBoards:
    """Rows over the whole depth, the last column flush right; words as wide as the grids.

    Where they are `wide`, they fill the columns, and grids stand at the left of these.
    """
    columns, rows = shape
    gap = design.page.gap
    column = (design.measure - (columns - 1) * gap) / columns
    room, room_of_row = column, (depth - (rows - 1) * ROW_GAP * gap) / rows
    width = column if wide else _widest_board(puzzles, column, look, design)
    while True:
        boards = set_boards(puzzles, width, look, design)
        above = max(board.above(look, design) for board in boards)
        below = max(board.below(look) for board in boards)
        room = max(min(room, room_of_row - above - below), 0.0)
        narrower = _widest_board(puzzles, room, look, design) if room else width
        if wide or narrower >= width:
            break
        width = narrower
    side = _largest_board(puzzles, room, look, design)
    deep = above + side + below
    down = (depth - deep) / (rows - 1) if rows > 1 else depth
    down = min(down, deep + WIDEST_ROW_GAP * gap)
    across = (design.measure - width) / (columns - 1) if columns > 1 else 0.0
    return Arrangement(columns, rows, side, above, across, down), boards


def most_title_lines(boards: Sequence[SmallBoard]) -> int:
    """The lines of the title that has most of them."""
    return max(len(board.title.lines) for board in boards)


def _widest_board(
    puzzles: Sequence[Numbered], side: float, look: SmallBoardLook, design: Design
) -> float:
    """The width of the widest board, none of them wider or deeper than `side`."""
    return max(design.board_width(each.puzzle, side, side, look.largest) for each in puzzles)


def _largest_board(
    puzzles: Sequence[Numbered], side: float, look: SmallBoardLook, design: Design
) -> float:
    """The side of the least square that holds each of the boards."""
    widths = [design.board_width(each.puzzle, side, side, look.largest) for each in puzzles]
    return max(
        max(width, design.board_height(each.puzzle, width))
        for each, width in zip(puzzles, widths, strict=True)
    )
