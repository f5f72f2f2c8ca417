"""What an editor signs before a season goes out: sheets of all days, their answers, a calendar.

The days themselves are laid over the sheets afterwards, each within its `Slot`: so what is signed
is what the papers get, only smaller.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Final

from layout.board.board import draw_board
from layout.language.dates import short_date
from layout.language.words import Words, fill
from layout.picture.document import Document, Info, Leaf, OutlineEntry
from layout.picture.items import Anchor, Group, Item, Stroke
from layout.picture.shapes import polyline
from layout.style.style import Style
from layout.type.face import Face
from layout.type.fitting import shrunk_line
from layout.type.paragraph import one_line
from layout.type.typography import polish
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.report.grade import GRADED, Band

WIDTH: Final = 210.0
HEIGHT: Final = 297.0
MARGIN: Final = 14.0
GAP: Final = 6.0
HEAD: Final = 18.0
"""From the top of the text area to the first row, in millimetres."""

DAYS_ACROSS: Final = 4
DAYS_DOWN: Final = 4
ANSWERS_ACROSS: Final = 4
ANSWERS_DOWN: Final = 5
ROW: Final = 6.4
"""The depth of a line of the calendar."""

CAPTION: Final = 8.6
LINE: Final = 0.5 * 25.4 / 72

TITLE: Final = 6.4
SMALL: Final = 2.9
LEADING: Final = 1.3
"""Sizes in millimetres, and from line to line in sizes."""


@dataclass(frozen=True, slots=True)
class SignedDay:
    """A day of the run: how large its picture is, in millimetres, and its files by name."""

    date: date
    number: int
    puzzle: Puzzle
    answer: Answer
    grade: Band
    width: float
    height: float
    files: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Slot:
    """Where a day's picture is laid: on a leaf, from 0, a rectangle in millimetres from its top."""

    day: date
    leaf: int
    x: float
    y: float
    width: float
    height: float


def sign_off(
    title: str, days: Sequence[SignedDay], style: Style, words: Words
) -> tuple[Document, tuple[Slot, ...]]:
    """The sheets, and the places of the days' pictures on them, in the order of the days."""
    setter = _Setter(title, style, words)
    months = [
        (month, list(group))
        for month, group in groupby(days, key=lambda each: each.date.replace(day=1))
    ]
    for month, group in months:
        setter.contact_sheets(month, group)
    setter.full_size(days)
    setter.answers(days)
    setter.calendar(days)
    return setter.document(), tuple(setter.slots)


class _Setter:
    """Sets the sheets one behind the other."""

    def __init__(self, title: str, style: Style, words: Words) -> None:
        self._title, self._style, self._words = polish(title, words.quote_marks), style, words
        faces = style.page.faces
        self._head = Face(faces.title.font, TITLE, LEADING * TITLE)
        self._bold = Face(faces.number.font, SMALL, LEADING * SMALL)
        self._plain = Face(faces.prose.roman, SMALL, LEADING * SMALL)
        self._leaves: list[Leaf] = []
        self._outline: list[OutlineEntry] = []
        self.slots: list[Slot] = []

    def document(self) -> Document:
        """All sheets."""
        info = Info(self._title, "", "", self._words.language)
        return Document(tuple(self._leaves), info, tuple(self._outline))

    def contact_sheets(self, month: date, days: Sequence[SignedDay]) -> None:
        """The days of a month, small, each with what it is."""
        named = f"{month:%Y-%m}"
        for page in _cut(days, DAYS_ACROSS * DAYS_DOWN):
            items: list[Item] = []
            for index, day in enumerate(page):
                row, column = divmod(index, DAYS_ACROSS)
                wide = (WIDTH - 2 * MARGIN - (DAYS_ACROSS - 1) * GAP) / DAYS_ACROSS
                deep = (HEIGHT - 2 * MARGIN - HEAD - (DAYS_DOWN - 1) * GAP) / DAYS_DOWN
                x, y = MARGIN + column * (wide + GAP), MARGIN + HEAD + row * (deep + GAP)
                items += self._caption(day, x, y, wide)
                self._place(day, x, y + CAPTION, wide, deep - CAPTION)
            self._add(named, items)

    def full_size(self, days: Sequence[SignedDay]) -> None:
        """The days as large as they are printed, or as a sheet lets them be, below one another."""
        items: list[Item] = []
        top, room = MARGIN + HEAD, HEIGHT - 2 * MARGIN - HEAD
        y = top
        for day in days:
            part = min(1.0, (WIDTH - 2 * MARGIN) / day.width, (room - CAPTION) / day.height)
            deep = CAPTION + part * day.height
            if y > top and y + deep > HEIGHT - MARGIN:
                self._add(self._words.daily.full_size, items)
                items, y = [], top
            items += self._caption(day, MARGIN, y, WIDTH - 2 * MARGIN)
            self._place(day, MARGIN, y + CAPTION, day.width, part * day.height)
            y += deep + 2 * GAP
        self._add(self._words.daily.full_size, items)

    def _place(self, day: SignedDay, x: float, y: float, wide: float, deep: float) -> None:
        """A day's picture on the sheet that comes next, its upper left corner there."""
        part = min(wide / day.width, deep / day.height)
        size = (part * day.width, part * day.height)
        self.slots.append(Slot(day.date, len(self._leaves), x, y, *size))

    def answers(self, days: Sequence[SignedDay]) -> None:
        """All answers, with their dates and numbers."""
        for page in _cut(days, ANSWERS_ACROSS * ANSWERS_DOWN):
            items: list[Item] = []
            for index, day in enumerate(page):
                row, column = divmod(index, ANSWERS_ACROSS)
                wide = (WIDTH - 2 * MARGIN - (ANSWERS_ACROSS - 1) * GAP) / ANSWERS_ACROSS
                deep = (HEIGHT - 2 * MARGIN - HEAD) / ANSWERS_DOWN
                x, y = MARGIN + column * (wide + GAP), MARGIN + HEAD + row * deep
                items += self._caption(day, x, y, wide)
                room = min(
                    wide, (deep - CAPTION - GAP) * day.puzzle.board.columns / day.puzzle.board.rows
                )
                drawn = draw_board(day.puzzle, self._style.board, room, answer=day.answer)
                items.append(Group(x, y + CAPTION, drawn.items, drawn.title))
            self._add(self._words.worksheet.key, items)

    def calendar(self, days: Sequence[SignedDay]) -> None:
        """A line a day, by grade: when it is due, and where its files lie."""
        ordered = sorted(
            days, key=lambda day: ((*GRADED, Band.UNGRADED).index(day.grade), day.date)
        )
        lines = int((HEIGHT - 2 * MARGIN - HEAD) / ROW)
        for page in _cut(ordered, lines):
            items: list[Item] = []
            for index, day in enumerate(page):
                y = MARGIN + HEAD + (index + 0.7) * ROW
                items += self._row(day, y)
                under = y + 0.3 * ROW
                items.append(
                    Stroke((polyline([(MARGIN, under), (WIDTH - MARGIN, under)]),), LINE, 0.6)
                )
            self._add(self._words.daily.calendar, items)

    def _row(self, day: SignedDay, y: float) -> Iterator[Item]:
        grade = self._words.grades.bands[day.grade.value]
        told = (
            (0.0, grade, self._bold),
            (20.0, day.date.isoformat(), self._plain),
            (42.0, str(day.number), self._plain),
            (54.0, day.puzzle.id, self._plain),
            (94.0, ", ".join(day.files), self._plain),
        )
        room = WIDTH - 2 * MARGIN
        for (x, text, face), (end, *_) in zip(
            told, (*told[1:], (room, "", self._plain)), strict=True
        ):
            line = shrunk_line(text, face, end - x - 1.5, 0.45 * face.size)
            yield from line.at(MARGIN + x, y)

    def _caption(self, day: SignedDay, x: float, y: float, wide: float) -> Iterator[Item]:
        """Date and number; the grade."""
        number = fill(self._words.daily.number, number=day.number)
        grade = self._words.grades.bands[day.grade.value]
        day_named = short_date(day.date, self._words)
        yield from shrunk_line(day_named, self._bold, wide).at(x, y + SMALL)
        yield from one_line(f"{number}, {grade}", self._plain).at(
            x, y + SMALL * (1 + LEADING * 0.85)
        )

    def _add(self, named: str, items: Sequence[Item]) -> None:
        """A sheet with its head."""
        number = len(self._leaves) + 1
        anchor = f"sheet-{number}"
        if not self._outline or self._outline[-1].title != named:
            self._outline.append(OutlineEntry(named, anchor))
        head = one_line(self._title, self._head)
        right = one_line(named, self._plain)
        drawn = (
            Anchor(anchor, 0.0),
            *head.at(MARGIN, MARGIN + TITLE),
            *right.at(WIDTH - MARGIN - right.width, MARGIN + TITLE),
            *items,
        )
        self._leaves.append(Leaf(WIDTH, HEIGHT, drawn, str(number)))


def _cut(days: Sequence[SignedDay], most: int) -> list[Sequence[SignedDay]]:
    return [days[start : start + most] for start in range(0, len(days), most)]
