"""One day's puzzle as a newspaper prints it: a picture exactly as wide as the paper's columns.

What stands before the grid runs across the picture. What follows the grid stands to its right
where there is room for words, else below it, or always where that is wanted. A depth that is held
is filled: the grid takes what room there is.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, inf
from typing import Final, Literal, TypeAlias, get_args

from layout.board.board import tell_board
from layout.board.cropped import cropped_extent
from layout.language.words import Words
from layout.pages.column.column_day import SHOW, ColumnDay, DayTypesetter, Due, Previous, ShowItem
from layout.pages.column.column_parts import (
    ColumnPart,
    Stack,
    bare,
    board_part,
    rule_part,
    side_by_side,
)
from layout.pages.common.caption import rounded_down
from layout.pages.common.misfit import Misfit, Misfits
from layout.picture.items import Picture
from layout.style.style import Style
from verify.puzzle import Puzzle

__all__ = ["SHOW", "ColumnDay", "Due", "Previous", "ShowItem", "column_picture"]

Arrangement: TypeAlias = Literal["best", "stacked", "beside"]
"""Whether what follows the grid stands below it or to its right; `best` is what has room."""

ARRANGEMENTS: Final[tuple[Arrangement, ...]] = get_args(Arrangement)

BOARD_SHARE: Final = 0.62
"""The part of the width that a grid takes at most where words stand beside it, and the part of a
narrow column that an earlier answer takes: the golden section."""

ANSWER_SHARE: Final = 0.5
"""How wide an earlier answer is at most beside the grid, in widths of that."""

STEP: Final = 0.95
"""Grids get smaller in steps until all has its place."""

RATHER_BELOW: Final = 1.5
"""Where the words are so many times as deep as the grid beside them, they stand below it."""

MOST_SPREAD: Final = 1.5
"""How far gaps grow, in gaps, where a depth leaves room; the rest stays free at the foot."""

SHOWN_ALONE: Final = frozenset({"heading", "date", "previous-answer"})
"""What stands on a day that has an answer and no puzzle."""

_EPSILON: Final = 1e-6


def column_picture(
    day: ColumnDay,
    style: Style,
    words: Words,
    width: float,
    depth: float = inf,
    show: Sequence[ShowItem] = SHOW,
    arrange: Arrangement = "best",
) -> Picture:
    """The day's picture, exactly `width` millimetres wide and as deep as it needs, or `depth`.

    The items of `show`, the grid among them, stand in its order; what the day has not is left
    out. Raises Misfits where cells would be smaller than the style allows, where nothing has room
    beside the grid that must stand there, and for words or a depth that are too small; and
    CannotDraw for what the fonts or the style can't show.
    """
    setting = DayTypesetter(day, style, words)
    column = _Column.of(setting, width, show)
    if day.over:
        return _answer_alone(column, show)
    if found := tuple(column.too_small()):
        raise Misfits(found)
    stack = _chosen(column.arrangements(arrange), depth, width)
    height = stack.height if depth == inf else depth
    items = tuple(stack.items(height, MOST_SPREAD))
    return Picture(width, height, items, setting.title(show), tell_board(day.puzzle))


def _answer_alone(column: "_Column", show: Sequence[ShowItem]) -> Picture:
    """The answer of the day before under the day's heading and date, as deep as it needs.

    Raises Misfits for a column that is too narrow for it.
    """
    setting, day = column.setting, column.setting.day
    if found := tuple(column.too_small()):
        raise Misfits(found)
    kept = [item for item in show if item in SHOWN_ALONE]
    stack = column.closed(setting.parts(kept, column.width, column.answers()[0]), 1.0, 0.0)
    items = tuple(stack.items(stack.height, MOST_SPREAD))
    told = tell_board(day.puzzle, day.answer)
    return Picture(column.width, stack.height, items, setting.title(kept), told)


def _chosen(stacks: Iterable[Stack], depth: float, width: float) -> Stack:
    """The first of those that fit and overhang least; where a depth is held, the largest grid.

    Raises Misfits where none fits.
    """
    least, found = inf, list[Stack]()
    for stack in stacks:
        least = min(least, stack.height)
        if stack.height <= depth + _EPSILON:
            found.append(stack)
            if depth == inf and stack.overhang <= 1.0:
                return stack
    if least == inf:
        message = f"nothing has room beside the grid in {width:g} mm; stacked has it below"
        raise Misfits([Misfit(message, path=("arrange",))])
    if not found:
        needed = f"{ceil(least * 10) / 10:g}"
        message = f"the column needs a depth of {needed} mm, {depth:g} mm are given"
        raise Misfits([Misfit(message, path=("depth",))])
    if depth == inf:
        return min(found, key=lambda stack: stack.overhang)
    return max(found, key=lambda stack: (round(stack.grid), stack.height))


@dataclass(frozen=True, slots=True)
class _Column:
    """A day's parts in one width: what stands before the grid and what after it.

    `answer` is the grid of an earlier day, where one is shown.
    """

    setting: DayTypesetter
    width: float
    before: tuple[ShowItem, ...]
    after: tuple[ShowItem, ...]
    answer: Puzzle | None

    @classmethod
    def of(cls, setting: DayTypesetter, width: float, show: Sequence[ShowItem]) -> "_Column":
        """The column that shows these items."""
        at = list(show).index("grid")
        previous = setting.day.previous if "previous-answer" in show else None
        answer = None if previous is None else bare(previous.puzzle)
        return cls(setting, width, tuple(show[:at]), tuple(show[at + 1 :]), answer)

    def arrangements(self, arrange: Arrangement) -> Iterator[Stack]:
        """All that may be chosen from, the preferred first."""
        boards: list[float] = []
        follows = bool(self.setting.parts(self.after, self.width, self.answers()[0]))
        if arrange != "stacked" and follows:
            boards += self._boards_with_words_beside()
        for board in boards:
            yield from self._beside(board)
        if arrange == "beside" and follows:
            return
        for board in _steps(self._largest(self.width), self._smallest()):
            for answer in self.answers():
                yield self._below(board, answer, RATHER_BELOW if boards else 1.0)

    def too_small(self) -> Iterator[Misfit]:
        """Grids for which the column is too narrow."""
        cells, day = self.setting.style.page.cells, self.setting.day
        if not day.over:
            yield from self._too_small(day.puzzle, day.puzzle, cells.smallest, "the grid")
        if self.answer is not None and day.previous is not None:
            what, least = "the grid of the answer", cells.smallest_in_answers
            yield from self._too_small(self.answer, day.previous.puzzle, least, what)

    def _too_small(
        self, drawn: Puzzle, puzzle: Puzzle, smallest: float, what: str
    ) -> Iterator[Misfit]:
        across = self._across(drawn)
        side = round(self.width / across, 6)
        if side < smallest:
            message = (
                f"{what}, {puzzle.board.columns} columns wide, gets cells of "
                f"{rounded_down(side)} mm in {self.width:g} mm; the style wants {smallest:g} mm "
                f"or more, which takes {ceil(across * smallest * 10 - _EPSILON) / 10:g} mm"
            )
            yield Misfit(message, puzzle=puzzle, field="size")

    def _below(self, board: float, answer: float, overhang: float) -> Stack:
        """All below one another."""
        setting, day = self.setting, self.setting.day
        grid = board_part(day.puzzle, setting.style.board, board, self.width)
        before = setting.parts(self.before, self.width, answer)
        after = setting.parts(self.after, self.width, answer)
        return self.closed([*before, grid, *after], overhang, board)

    def _beside(self, board: float) -> Iterator[Stack]:
        """What follows the grid to its right: with an earlier answer as large as has its place."""
        setting, look = self.setting, self.setting.style.column
        grid = board_part(setting.day.puzzle, setting.style.board, board, board)
        before = setting.parts(self.before, self.width, self.answers()[0])
        left = board + look.gutter
        foot = self.answer is not None and self.after[-1] == "previous-answer"
        for answer in self._answers_beside(self.width - left, board):
            parts = setting.parts(self.after, self.width - left, answer)
            side = Stack(tuple(parts), look.gap)
            body = side_by_side(grid, side, left, foot=foot)
            overhang = max(round(side.height / grid.height, 6), 1.0)
            yield self.closed([*before, body], overhang, board)

    def closed(self, parts: Sequence[ColumnPart], overhang: float, board: float) -> Stack:
        """The parts and the note between the lines that close the column off."""
        look = self.setting.style.column
        top, foot = rule_part(self.width, look.top), rule_part(self.width, look.rule)
        note = self.setting.note(self.width)
        return Stack((top, *parts, *note, foot), look.gap, overhang, board)

    def _across(self, puzzle: Puzzle) -> float:
        return cropped_extent(puzzle, self.setting.style.board).across

    def _smallest(self) -> float:
        return self._across(self.setting.day.puzzle) * self.setting.style.page.cells.smallest

    def _largest(self, room: float) -> float:
        largest = self.setting.style.page.cells.largest
        return min(room, self._across(self.setting.day.puzzle) * largest)

    def _boards_with_words_beside(self) -> Iterator[float]:
        """How wide the grid may be where words stand beside it, the widest first."""
        look = self.setting.style.column
        room = min(BOARD_SHARE * self.width, self.width - look.gutter - look.beside)
        yield from _steps(self._largest(room), self._smallest())

    def answers(self) -> tuple[float, ...]:
        """How wide an earlier answer may be in the whole width, the preferred first."""
        if self.answer is None:
            return (0.0,)
        cells, across = self.setting.style.page.cells, self._across(self.answer)
        least = min(across * cells.smallest_in_answers, self.width)
        usual = min(BOARD_SHARE * self.width, across * cells.largest_in_answers)
        return (max(usual, least), least)

    def _answers_beside(self, room: float, board: float) -> Iterator[float]:
        """How wide an earlier answer may be beside the grid, the widest first."""
        if self.answer is None or "previous-answer" not in self.after:
            yield 0.0
            return
        cells, across = self.setting.style.page.cells, self._across(self.answer)
        least = across * cells.smallest_in_answers
        usual = min(ANSWER_SHARE * board, across * cells.largest_in_answers)
        yield from _steps(min(max(usual, least), room), least)


def _steps(widest: float, least: float) -> Iterator[float]:
    """Widths from the widest down to the least; none where the widest is less."""
    width = widest
    while width > least + _EPSILON:
        yield width
        width *= STEP
    if widest >= least - _EPSILON:
        yield least
