"""One day of a newspaper's column: what it has to show, and that as parts of a width."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Final, Literal, TypeAlias, get_args

from layout.language.dates import full_date, short_date
from layout.language.wording import rule_sentences
from layout.language.words import Words, fill
from layout.pages.column.column_parts import (
    ColumnPart,
    bare,
    board_part,
    captioned_part,
    heading_part,
    prose_part,
    rule_part,
    ruled,
    strip_part,
)
from layout.style.style import Style
from layout.type.face import Face, Voices
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.report.grade import Band

ShowItem: TypeAlias = Literal[
    "heading", "date", "number", "constructor", "grade", "grid", "rules", "previous-answer"
]
"""What a column can show."""

SHOW: Final[tuple[ShowItem, ...]] = get_args(ShowItem)
"""All of it, in the usual order."""

Due: TypeAlias = Literal["same-day", "next-day", "none"]
"""Which answer a web page or a text has: the day's own, that of the day before, or none."""

_SHORT: Final = frozenset({"date", "number", "constructor", "grade"})


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

    The day's own `answer` is never in its picture; what web pages and texts have of answers is
    told by what is `due` there. An `UNGRADED` day shows no grade. `note` is printed at the end,
    where there is one. A day that is `over` comes after the last puzzle: it has the answer of the
    day before, and no puzzle.
    """

    heading: str
    date: date | None
    number: int | None
    puzzle: Puzzle
    grade: Band
    answer: Answer
    previous: Previous | None = None
    note: str = ""
    due: Due = "same-day"
    over: bool = False


@dataclass(frozen=True, slots=True)
class DayTypesetter:
    """Sets what a day has in the faces of a style and the words of a language."""

    day: ColumnDay
    style: Style
    words: Words

    def title(self, show: Sequence[ShowItem]) -> str:
        """What the picture is called: what stands at its head, in one line."""
        named = [item for item in ("heading", "date", "number") if item in show]
        said = [text for item in named if (text := self._short(item)[0])]
        return ", ".join(said) or self.day.puzzle.title

    def parts(self, items: Sequence[ShowItem], width: float, answer: float) -> list[ColumnPart]:
        """The parts that stand for some items, texts that are short together."""
        parts: list[ColumnPart] = []
        for short, group in groupby(items, key=lambda item: item in _SHORT):
            if short:
                parts += self._strip(list(group), width)
                continue
            for item in group:
                parts += self._part(item, width, answer)
        return parts

    def _strip(self, items: Sequence[ShowItem], width: float) -> list[ColumnPart]:
        said = [(text, face) for text, face in map(self._short, items) if text]
        return [strip_part(said, width, self.style.page.least, self.words)] if said else []

    def _part(self, item: ShowItem, width: float, answer: float) -> list[ColumnPart]:
        look, least = self.style.column, self.style.page.least
        if item == "heading" and self.day.heading:
            face = look.faces.heading
            heading = heading_part(self.day.heading, face, width, least, self.words)
            return [ruled(heading, rule_part(width, look.rule, above=0.75), look.gap)]
        if item == "rules":
            text = " ".join(rule_sentences(self.day.puzzle, self.words))
            return [prose_part(text, look.faces.rules, width, self.words)]
        if item == "previous-answer" and self.day.previous is not None:
            previous = self._previous(self.day.previous, width, answer)
            return [ruled(rule_part(width, look.rule), previous, look.gap)]
        return []

    def _previous(self, previous: Previous, width: float, drawn: float) -> ColumnPart:
        faces, words = self.style.column.faces, self.words
        board = board_part(bare(previous.puzzle), self.style.board, drawn, drawn, previous.answer)
        named = fill(words.daily.previous, number=previous.number)
        said = ((named, faces.answer), (short_date(previous.date, words), faces.answer_date))
        return captioned_part(board, drawn, said, width)

    def note(self, width: float) -> tuple[ColumnPart, ...]:
        """The note with a line above it; nothing where the day has none."""
        if not self.day.note:
            return ()
        look = self.style.column
        note = prose_part(self.day.note, Voices.of(look.faces.note), width, self.words)
        return (ruled(rule_part(width, look.rule), note, look.gap),)

    def _short(self, item: str) -> tuple[str, Face]:
        """A text of a few words, and its face; nothing where the day has no such thing."""
        day, faces, daily = self.day, self.style.column.faces, self.words.daily
        name = day.puzzle.credits.constructor
        grade = "" if day.grade is Band.UNGRADED else self.words.grades.bands[day.grade.value]
        said = {
            "heading": (day.heading, faces.heading),
            "date": (full_date(day.date, self.words) if day.date else "", faces.date),
            "number": (fill(daily.number, number=day.number) if day.number else "", faces.number),
            "constructor": (fill(daily.constructor, name=name) if name else "", faces.constructor),
            "grade": (grade[:1].upper() + grade[1:], faces.grade),
        }
        return said[item]
