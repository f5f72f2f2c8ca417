"""The parts of a newspaper's puzzle column: what is said and drawn, each set for a width."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from math import fsum
from typing import Final

from layout.board.cropped import cropped_board, cropped_extent
from layout.language.words import Words
from layout.pages.common.design import cap, stacked
from layout.pages.common.misfit import Misfit, Misfits
from layout.picture.items import Group, Item, Stroke
from layout.picture.shapes import polyline
from layout.style.board import BoardStyle
from layout.type.face import Face, Voices
from layout.type.fitting import DoesNotFit, fit_title
from layout.type.lines import Line
from layout.type.markup import plain_run
from layout.type.paragraph import one_line, set_paragraph, set_words
from layout.type.typography import polish
from verify.marks import Border
from verify.pencil import Grid
from verify.puzzle import Puzzle
from verify.reading.node import shown

MOST_LINES: Final = 3
"""Lines of a heading or a name."""

APART: Final = 1.6
"""White kept between two short texts of one line, in ems."""

UNDER_CAPTION: Final = 1.4
"""From a caption's last baseline to its grid, in millimetres."""

LINES_BESIDE: Final = 2
"""Lines of each text of a caption that stands to the right of its grid."""

BESIDE_CAPTION: Final = 2.4
"""White between a grid and the caption to its right, in millimetres."""


@dataclass(frozen=True, slots=True)
class ColumnPart:
    """A part of the column that is `height` millimetres deep.

    `draw` gives its items from its upper left corner; `above` is the white over it, in gaps.
    """

    height: float
    draw: Callable[[], Iterable[Item]]
    above: float = 1.0


@dataclass(frozen=True, slots=True)
class Stack:
    """Parts below one another, the last at the foot.

    `gap` is millimetres. `overhang` is the depth of the words beside a grid as a share of the
    grid's, 1 where they are no deeper; `grid` is how wide that is, in millimetres.
    """

    parts: tuple[ColumnPart, ...]
    gap: float
    overhang: float = 1.0
    grid: float = 0.0

    @property
    def height(self) -> float:
        """The least depth, in millimetres."""
        above = fsum(part.above for part in self.parts[1:])
        return fsum(part.height for part in self.parts) + above * self.gap

    def items(self, height: float, most_spread: float) -> Iterator[Item]:
        """The parts in a height that is at least what they need; gaps grow so many gaps at most."""
        free = height - self.height
        spread = min(free / max(len(self.parts) - 1, 1), most_spread * self.gap)
        y = 0.0
        for index, part in enumerate(self.parts):
            last = index == len(self.parts) - 1
            y += part.above * self.gap + spread if index else 0.0
            yield Group(0.0, height - part.height if last else y, tuple(part.draw()))
            y += part.height


def ruled(one: ColumnPart, other: ColumnPart, gap: float) -> ColumnPart:
    """Two parts that stay together, one of them a line."""
    stack = Stack((one, other), gap)
    return ColumnPart(stack.height, lambda: stack.items(stack.height, 0.0), one.above)


def side_by_side(grid: ColumnPart, side: Stack, left: float, *, foot: bool) -> ColumnPart:
    """A grid, and parts that start that far to the right of its left edge."""
    height = max(grid.height, side.height)

    def draw() -> Iterator[Item]:
        yield from grid.draw()
        yield Group(left, 0.0, tuple(side.items(height if foot else side.height, 0.0)))

    return ColumnPart(height, draw)


def rule_part(width: float, line: float, above: float = 1.0) -> ColumnPart:
    """A line across a width."""
    stroke = Stroke((polyline([(0.0, line / 2), (width, line / 2)]),), line)
    return ColumnPart(line, lambda: (stroke,), above)


def heading_part(text: str, face: Face, width: float, least: float, words: Words) -> ColumnPart:
    """The heading; raises Misfits where it is too long."""
    lines, face = _fitted(text, face, width, least, words)
    height = cap(face) + (len(lines) - 1) * face.leading
    return ColumnPart(height, partial(stacked, lines, face.leading, 0.0, cap(face)), above=0.75)


def strip_part(
    said: Sequence[tuple[str, Face]], width: float, least: float, words: Words
) -> ColumnPart:
    """Short texts, as many on a line as it holds, spread from its left end to its right."""
    rows = list(_rows([_fitted(text, face, width, least, words) for text, face in said], width))
    first, leadings = rows[0][1], [face.leading for _, face in rows[1:]]
    height = cap(first) + fsum(leadings)

    def draw() -> Iterator[Item]:
        y = cap(first)
        for (row, _), leading in zip(rows, [*leadings, 0.0], strict=True):
            yield from _spread(row, width, y)
            y += leading

    return ColumnPart(height, draw, above=0.65)


def _fitted(
    text: str, face: Face, width: float, least: float, words: Words
) -> tuple[tuple[Line, ...], Face]:
    """A text's lines and their face. Raises Misfits where it is too long for the width."""
    try:
        return fit_title(polish(text, words.quote_marks), face, width, least, MOST_LINES)
    except DoesNotFit:
        message = f'"{shown(text)}" is too long for a column of {width:g} mm'
        raise Misfits([Misfit(message)]) from None


def _rows(
    fitted: Sequence[tuple[tuple[Line, ...], Face]], width: float
) -> Iterator[tuple[list[Line], Face]]:
    """The lines that stand on each row, from left to right."""
    row: list[Line] = []
    faces: list[Face] = []
    for lines, face in fitted:
        taken = fsum(line.width + APART * line.size for line in row) + lines[0].width
        if row and (len(lines) > 1 or taken > width):
            yield row, faces[0]
            row, faces = [], []
        if len(lines) > 1:
            yield from (([line], face) for line in lines)
        else:
            row, faces = [*row, lines[0]], [*faces, face]
    if row:
        yield row, faces[0]


def _spread(row: Sequence[Line], width: float, y: float) -> Iterator[Item]:
    """Lines on one baseline, the last of several flush right."""
    free = (width - fsum(line.width for line in row)) / max(len(row) - 1, 1)
    x = 0.0
    for line in row:
        yield from line.at(x, y)
        x += line.width + free


def prose_part(text: str, voices: Voices, width: float, words: Words) -> ColumnPart:
    """A paragraph."""
    runs = plain_run(text, words.quote_marks)
    lines = set_paragraph(runs, voices, width, language=words.language)
    height = cap(voices) + (len(lines) - 1) * voices.leading
    return ColumnPart(height, partial(stacked, lines, voices.leading, 0.0, cap(voices)))


def board_part(
    puzzle: Puzzle, style: BoardStyle, board: float, width: float, answer: Grid | None = None
) -> ColumnPart:
    """A board `board` millimetres wide, in the middle of the width."""
    left = (width - board) / 2

    def draw() -> Iterator[Item]:
        yield Group(left, 0.0, (cropped_board(puzzle, style, board, answer),))

    return ColumnPart(cropped_extent(puzzle, style).height(board), draw)


def bare(puzzle: Puzzle) -> Puzzle:
    """The puzzle with nothing but its grid and regions: in a small answer marks hide digits."""
    return replace(
        puzzle,
        uses=tuple(
            use
            for use in puzzle.uses
            if all(isinstance(mark, Border) for mark in use.marks(puzzle.board))
        ),
    )


def captioned_part(
    board: ColumnPart, drawn: float, said: Sequence[tuple[str, Face]], width: float
) -> ColumnPart:
    """A board `drawn` millimetres wide, its caption to its right or, where that fails, above it."""
    beside = width - drawn - BESIDE_CAPTION
    if all(_fits_beside(text, face, beside) for text, face in said):
        caption = _caption(said, beside)
        left, top, under = drawn + BESIDE_CAPTION, 0.0, 0.0
    else:
        caption = _caption(said, width)
        left, top, under = 0.0, caption.height + UNDER_CAPTION, caption.height + UNDER_CAPTION

    def draw() -> Iterator[Item]:
        yield Group(left, 0.0, tuple(caption.draw()))
        yield Group(0.0, top, tuple(board.draw()))

    return ColumnPart(max(under + board.height, caption.height), draw, above=0.8)


def _fits_beside(text: str, face: Face, width: float) -> bool:
    """Whether a text takes two lines at most and no word of it is parted."""
    if max(one_line(word, face).width for word in text.split(" ")) > width:
        return False
    return len(set_words(text, face, width)) <= LINES_BESIDE


def _caption(said: Sequence[tuple[str, Face]], width: float) -> ColumnPart:
    """Short texts below one another."""
    lines = [(line, face) for text, face in said for line in set_words(text, face, width)]
    first = cap(lines[0][1])
    height = first + fsum(face.leading for _, face in lines[1:])

    def draw() -> Iterator[Item]:
        y = first
        for index, (line, face) in enumerate(lines):
            y += face.leading if index else 0.0
            yield from line.at(0.0, y)

    return ColumnPart(height, draw)
