"""How the small boards of a page are arranged: in which columns and rows, and how large."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final, TypeAlias

from layout.pages.common.design import Design
from layout.pages.common.misfit import Misfits, gathered
from layout.pages.common.page import Labels
from layout.pages.common.small_boards import (
    BoardPlace,
    Chunk,
    SmallBoard,
    SmallBoardLook,
    board_items,
    set_boards,
)
from layout.picture.items import Anchor, Item

GRID_SHARE: Final = 0.8
"""The part of a small board's depth that is its grid, as a guess to choose an arrangement by."""

ROW_GAP: Final = 0.6
"""White between rows of boards, in gaps."""

WIDEST_ROW_GAP: Final = 2.6
"""Rows of boards that have room to spare are kept no further apart, in gaps."""

WORTH_IT: Final = 0.97
"""An arrangement that is tried earlier is taken where its grids are this share of the largest."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Small boards in columns and rows.

    `side` is the most that a grid may take, `above` what words take over it; `across` leads from
    one column to the next and `down` from one row to the next, all in millimetres. With `apart`
    constructors and references have a line each.
    """

    columns: int
    side: float
    above: float
    across: float
    down: float
    apart: bool

    def items(
        self, boards: Sequence[SmallBoard], look: SmallBoardLook, design: Design, labels: Labels
    ) -> Iterator[Item]:
        """All boards of a page in their places."""
        for index, board in enumerate(boards):
            row, column = divmod(index, self.columns)
            x, y = column * self.across, row * self.down + self.above
            place = BoardPlace(x, y, self.side, self.apart)
            yield from board_items(board, place, look, design, labels)

    def anchor(self, index: int, name: str) -> Anchor:
        """The anchor of a board, at the height of its words."""
        return Anchor(name, index // self.columns * self.down)


LaidBoards: TypeAlias = tuple[Arrangement, list[list[SmallBoard]]]
"""An arrangement and the boards of every page."""


@dataclass(frozen=True, slots=True)
class _Frame:
    """The room that boards are laid into: columns and rows of a page, `depth` millimetres deep."""

    chunks: Sequence[Chunk]
    columns: int
    rows: int
    depth: float
    design: Design

    @property
    def width(self) -> float:
        """The width of a column."""
        design = self.design
        return (design.measure - (self.columns - 1) * design.page.gap) / self.columns

    def boards(self, width: float, look: SmallBoardLook) -> list[list[SmallBoard]]:
        """The words of all pages, so wide. Raises Misfits where they are too long."""
        return gathered(
            partial(set_boards, chunk, width, look, self.design) for chunk in self.chunks
        )

    def room(self, boards: Sequence[Sequence[SmallBoard]], look: SmallBoardLook) -> float:
        """How deep a grid may be; nothing where words leave no room."""
        above, below, _ = _words_depth(boards, look)
        gaps = (self.rows - 1) * ROW_GAP * self.design.page.gap
        return max((self.depth - gaps) / self.rows - above - below, 0.0)

    def arrangement(
        self,
        boards: Sequence[Sequence[SmallBoard]],
        side: float,
        across: float,
        look: SmallBoardLook,
    ) -> Arrangement:
        """Grids that large, and spare depth between the rows, but not too much of it."""
        above, below, apart = _words_depth(boards, look)
        deep = above + side + below
        spread = (self.depth - deep) / (self.rows - 1) if self.rows > 1 else 0.0
        down = min(spread, deep + WIDEST_ROW_GAP * self.design.page.gap)
        return Arrangement(self.columns, side, above, across, down, apart)


def lay_boards(
    chunks: Sequence[Chunk], per_page: int, depth: float, look: SmallBoardLook, design: Design
) -> LaidBoards:
    """The arrangement that gives the largest grids, the same for all pages, and their boards.

    Raises Misfits for words that are too long.
    """
    shapes = [
        (columns, per_page // columns)
        for columns in range(1, per_page + 1)
        if per_page % columns == 0
    ]
    columns, rows = max(shapes, key=lambda shape: _guessed_side(shape, depth, design))
    frame = _Frame(chunks, columns, rows, depth, design)
    attempts = [
        partial(fill, frame, replace(look, tight=tight))
        for fill in (_flush, _in_columns)
        for tight in (False, True)
    ]
    laid: list[LaidBoards] = []
    for each in _successes(attempts):
        laid.append(each)
        if each[0].side >= WORTH_IT * frame.width:
            break
    largest = max(arrangement.side for arrangement, _ in laid)
    return next(each for each in laid if each[0].side >= WORTH_IT * largest)


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


def _guessed_side(shape: tuple[int, int], depth: float, design: Design) -> float:
    """How wide grids come out in so many columns and rows, before any words are set."""
    columns, rows = shape
    gap = design.page.gap
    return min((design.measure + gap) / columns, (depth + gap) / rows * GRID_SHARE)


def _flush(frame: _Frame, look: SmallBoardLook) -> LaidBoards:
    """Words as wide as the grids, the last column flush right."""
    width, room = frame.width, 0.0
    boards = frame.boards(width, look)
    while 0 < (room := frame.room(boards, look)) < width:
        width = room
        boards = frame.boards(width, look)
    side = min(width, room)
    across = (frame.design.measure - width) / (frame.columns - 1) if frame.columns > 1 else 0.0
    return frame.arrangement(boards, side, across, look), boards


def _in_columns(frame: _Frame, look: SmallBoardLook) -> LaidBoards:
    """Words as wide as a column, the grids at the left of it."""
    boards = frame.boards(frame.width, look)
    side = min(frame.width, frame.room(boards, look))
    return frame.arrangement(boards, side, frame.width + frame.design.page.gap, look), boards


def _words_depth(
    boards: Sequence[Sequence[SmallBoard]], look: SmallBoardLook
) -> tuple[float, float, bool]:
    """The most that words take above a grid and below, and whether references stand apart."""
    every = [board for page in boards for board in page]
    apart = any(board.is_apart(look) for board in every)
    above = max(board.above(look) for board in every)
    return above, max(board.below(look, apart) for board in every), apart
