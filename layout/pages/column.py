"""One day's puzzle as a newspaper prints it: a picture exactly as wide as the paper's columns.

What stands before the grid runs across the picture. What follows the grid stands to its right
where there is room for words, else below it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from math import ceil, inf
from typing import Final, Literal, TypeAlias, get_args

from layout.pages.caption import rounded_down
from layout.pages.column_parts import (
    Part,
    bare,
    board_part,
    captioned_part,
    heading_part,
    prose_part,
    rule_part,
    strip_part,
)
from layout.pages.misfit import Misfit, Misfits
from layout.pages.wording import rule_sentences
from layout.picture.board import tell_board
from layout.picture.items import Group, Item, Picture
from layout.picture.snug import snug_extent
from layout.style.sheet import Style
from layout.type.dates import full_date, short_date
from layout.type.face import Face, Voices
from layout.type.words import Words, fill
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.grade import Band

ShowItem: TypeAlias = Literal[
    "heading", "date", "number", "constructor", "grade", "grid", "rules", "previous-answer"
]
"""What a column can show."""

SHOW: Final[tuple[ShowItem, ...]] = get_args(ShowItem)
"""All of it, in the usual order."""

BOARD_SHARE: Final = 0.62
"""The part of the width that a grid takes at most where words stand beside it, and the part of a
narrow column that an earlier answer takes: the golden section."""

ANSWER_SHARE: Final = 0.5
"""How wide an earlier answer is at most beside the grid, in widths of that."""

STEP: Final = 0.96
"""Grids get smaller in steps until all has its place."""

MOST_SPREAD: Final = 1.5
"""How far gaps grow, in gaps, where a depth leaves room; the rest stays free at the foot."""

_EPSILON: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Previous:
    """An earlier day's puzzle, whose answer is due."""

    number: int
    puzzle: Puzzle
    answer: Answer
    date: date


@dataclass(frozen=True, slots=True)
class ColumnDay:
    """One day of a newspaper's column.

    The day's own `answer` is not drawn; it is due on a later day. `note` is printed at the end,
    where there is one.
    """

    heading: str
    date: date
    number: int
    puzzle: Puzzle
    grade: Band
    answer: Answer
    previous: Previous | None = None
    note: str = ""


def column_picture(
    day: ColumnDay,
    style: Style,
    words: Words,
    width: float,
    depth: float = inf,
    show: Sequence[ShowItem] = SHOW,
) -> Picture:
    """The day's picture, exactly `width` millimetres wide and as deep as it needs, or `depth`.

    The items of `show` stand in its order; what the day has not is left out. Raises Misfits where
    cells would be smaller than the style allows, and for words or a depth that are too small, and
    CannotDraw for what the fonts or the style can't show.
    """
    column = _Column(day, style, words, width, tuple(show))
    stack = _chosen(list(column.arrangements()), depth)
    height = stack.height if depth == inf else depth
    items = tuple(stack.items(height, MOST_SPREAD))
    return Picture(width, height, items, column.title(), tell_board(day.puzzle))


@dataclass(frozen=True, slots=True)
class _Stack:
    """Parts below one another, the last at the foot.

    `overhang` is how deep the words beside a grid are in depths of it, 1 where they are no deeper.
    """

    parts: tuple[Part, ...]
    gap: float
    overhang: float = 1.0

    @property
    def height(self) -> float:
        """What it needs."""
        above = sum(part.above for part in self.parts[1:])
        return sum(part.height for part in self.parts) + above * self.gap

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


def _chosen(stacks: Sequence[_Stack], depth: float) -> _Stack:
    """The first of those that fit and overhang least. Raises Misfits where none fits."""
    fitting = [stack for stack in stacks if stack.height <= depth + _EPSILON]
    if not fitting:
        least = ceil(min(stack.height for stack in stacks) * 10) / 10
        message = f"the column needs a depth of {least:g} mm, {depth:g} mm are given"
        raise Misfits([Misfit(message, path=("depth",))])
    return min(fitting, key=lambda stack: stack.overhang)


@dataclass(frozen=True, slots=True)
class _Column:
    """A day's parts, set for one width."""

    day: ColumnDay
    style: Style
    words: Words
    width: float
    show: tuple[ShowItem, ...]

    def title(self) -> str:
        """What the picture is called: what stands at its head, in one line."""
        named = [item for item in ("heading", "date", "number") if item in self.show]
        said = [text for item in named if (text := self._short(item)[0])]
        return ", ".join(said) or self.day.puzzle.title

    def arrangements(self) -> Iterator[_Stack]:
        """All that may be chosen from, the preferred first. Raises Misfits for small cells."""
        at = self.show.index("grid") if "grid" in self.show else len(self.show)
        head, after = self.show[:at], self.show[at + 1 :]
        if at == len(self.show):
            yield self._stack(self._parts(head, self.width, self._answers()[0]))
            return
        self._check_cells()
        boards = list(self._beside_widths()) if self._any(after) else []
        for board in boards:
            yield from self._beside(board, head, after)
        if not boards:
            for board in _steps(self._largest(self.width), self._smallest()):
                for answer in self._answers():
                    yield self._below(board, answer, head, after)

    def _any(self, items: Sequence[ShowItem]) -> bool:
        """Whether the day has any of these."""
        return bool(self._parts(items, self.width, self._answers()[0]))

    # Arrangements

    def _below(
        self, board: float, answer: float, head: Sequence[ShowItem], after: Sequence[ShowItem]
    ) -> _Stack:
        """All below one another."""
        grid = board_part(self.day.puzzle, self.style.board, board, self.width)
        before = self._parts(head, self.width, answer)
        return self._stack([*before, grid, *self._parts(after, self.width, answer)])

    def _beside(
        self, board: float, head: Sequence[ShowItem], after: Sequence[ShowItem]
    ) -> Iterator[_Stack]:
        """What follows the grid to its right: with an earlier answer as large as has its place."""
        look = self.style.column
        grid = board_part(self.day.puzzle, self.style.board, board, board)
        room = self.width - board - look.gutter
        for answer in self._answers_beside(room, board):
            side = _Stack(tuple(self._parts(after, room, answer)), look.gap)
            overhang = max(round(side.height / grid.height, 6), 1.0)
            body = _side_by_side(grid, side, board + look.gutter, after[-1] == "previous-answer")
            yield self._stack([*self._parts(head, self.width, answer), body], overhang)

    def _stack(self, parts: Sequence[Part], overhang: float = 1.0) -> _Stack:
        """The parts between the lines that close the column off, and the note."""
        look = self.style.column
        note = self._note() if self.day.note else ()
        top, foot = rule_part(self.width, look.top), rule_part(self.width, look.rule)
        return _Stack((top, *parts, *note, foot), look.gap, overhang)

    # Sizes of boards

    def _across(self, puzzle: Puzzle) -> float:
        return snug_extent(puzzle, self.style.board).across

    def _smallest(self) -> float:
        return self._across(self.day.puzzle) * self.style.page.cells.smallest

    def _largest(self, room: float) -> float:
        return min(room, self._across(self.day.puzzle) * self.style.page.cells.largest)

    def _check_cells(self) -> None:
        """Raises Misfits where the column is too narrow for the grid, or for the earlier one."""
        cells, previous = self.style.page.cells, self.day.previous
        found = [*self._too_small(self.day.puzzle, cells.smallest, "")]
        if previous is not None and "previous-answer" in self.show:
            whose = f" of the answer to number {previous.number}"
            found += self._too_small(bare(previous.puzzle), cells.smallest_in_answers, whose)
        if found:
            raise Misfits(found)

    def _too_small(self, puzzle: Puzzle, smallest: float, whose: str) -> Iterator[Misfit]:
        across = self._across(puzzle)
        side = round(self.width / across, 6)
        if side < smallest:
            needed = ceil(across * smallest * 10) / 10
            yield Misfit(
                f"the grid{whose}, {puzzle.board.columns} columns wide, gets cells of "
                f"{rounded_down(side)} mm in {self.width:g} mm; the style wants {smallest:g} mm "
                f"or more, which takes {needed:g} mm",
                puzzle=puzzle,
                field="size",
            )

    def _beside_widths(self) -> Iterator[float]:
        """How wide the grid may be where words stand beside it, the widest first."""
        look = self.style.column
        room = min(BOARD_SHARE * self.width, self.width - look.gutter - look.beside)
        yield from _steps(self._largest(room), self._smallest())

    def _answers(self) -> tuple[float, ...]:
        """How wide an earlier answer may be in the whole width, the preferred first."""
        if self.day.previous is None:
            return (0.0,)
        cells, across = self.style.page.cells, self._across(bare(self.day.previous.puzzle))
        least = min(across * cells.smallest_in_answers, self.width)
        usual = min(BOARD_SHARE * self.width, across * cells.largest_in_answers)
        return (max(usual, least), least)

    def _answers_beside(self, room: float, board: float) -> Sequence[float]:
        """How wide an earlier answer may be beside the grid, the widest first."""
        if self.day.previous is None:
            return (0.0,)
        cells, across = self.style.page.cells, self._across(bare(self.day.previous.puzzle))
        usual = min(room, ANSWER_SHARE * board, across * cells.largest_in_answers)
        least = across * cells.smallest_in_answers
        return list(_steps(max(usual, min(least, room)), least))

    # Parts

    def _parts(self, items: Sequence[ShowItem], width: float, answer: float) -> list[Part]:
        """The parts that stand for some items, texts that are short together."""
        parts: list[Part] = []
        for short, group in groupby(items, key=lambda item: item in _SHORT):
            if short:
                parts += self._strip(list(group), width)
                continue
            for item in group:
                parts += self._part(item, width, answer)
        return parts

    def _strip(self, items: Sequence[ShowItem], width: float) -> list[Part]:
        said = [(text, face) for text, face in map(self._short, items) if text]
        return [strip_part(said, width, self.style.page.least, self.words)] if said else []

    def _part(self, item: ShowItem, width: float, answer: float) -> list[Part]:
        look, least = self.style.column, self.style.page.least
        if item == "heading" and self.day.heading:
            face = look.faces.heading
            heading = heading_part(self.day.heading, face, width, least, self.words)
            return [self._ruled(heading, rule_part(width, look.rule, above=0.75))]
        if item == "rules":
            text = " ".join(rule_sentences(self.day.puzzle, self.words))
            return [prose_part(text, look.faces.rules, width, self.words)]
        if item == "previous-answer" and self.day.previous is not None:
            previous = self._previous(self.day.previous, width, answer)
            return [self._ruled(rule_part(width, look.rule), previous)]
        return []

    def _previous(self, previous: Previous, width: float, drawn: float) -> Part:
        faces, words = self.style.column.faces, self.words
        board = board_part(bare(previous.puzzle), self.style.board, drawn, drawn, previous.answer)
        named = fill(words.daily.previous, number=previous.number)
        said = ((named, faces.answer), (short_date(previous.date, words), faces.answer_date))
        return captioned_part(board, drawn, said, width)

    def _note(self) -> tuple[Part, ...]:
        look = self.style.column
        note = prose_part(self.day.note, Voices.of(look.faces.note), self.width, self.words)
        return (self._ruled(rule_part(self.width, look.rule), note),)

    def _ruled(self, one: Part, other: Part) -> Part:
        """Two parts that stay together, one of them a line."""
        stack = _Stack((one, other), self.style.column.gap)
        return Part(stack.height, lambda: stack.items(stack.height, 0.0), one.above)

    def _short(self, item: str) -> tuple[str, Face]:
        """A text of a few words, and its face; nothing where the day has no such thing."""
        day, faces, daily = self.day, self.style.column.faces, self.words.daily
        constructor = day.puzzle.credits.constructor
        said = {
            "heading": (day.heading, faces.heading),
            "date": (full_date(day.date, self.words), faces.date),
            "number": (fill(daily.number, number=day.number), faces.number),
            "constructor": (
                fill(daily.constructor, name=constructor) if constructor else "",
                faces.constructor,
            ),
            "grade": (
                "" if day.grade is Band.UNGRADED else self.words.grades[day.grade.value],
                faces.grade,
            ),
        }
        return said[item]


_SHORT: Final = frozenset({"date", "number", "constructor", "grade"})


def _steps(widest: float, least: float) -> Iterator[float]:
    """Widths from the widest down to the least; none where the widest is less."""
    width = widest
    while width > least + _EPSILON:
        yield width
        width *= STEP
    if widest >= least - _EPSILON:
        yield least


def _side_by_side(grid: Part, side: _Stack, left: float, foot: bool) -> Part:
    """A grid, and parts that start that far to the right of its left edge."""
    height = max(grid.height, side.height)

    def draw() -> Iterator[Item]:
        yield from grid.draw()
        yield Group(left, 0.0, tuple(side.items(height if foot else side.height, 0.0)))

    return Part(height, draw)
