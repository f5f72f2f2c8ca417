"""A worksheet as its pages see it: what every sheet says, and the puzzles of each of them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from layout.language.words import Words, fill
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.report.grade import Grade


@dataclass(frozen=True, slots=True)
class Exercise:
    """A puzzle with its number on the sheet, its one answer and its grade."""

    number: int
    puzzle: Puzzle
    answer: Answer
    grade: Grade


@dataclass(frozen=True, slots=True)
class Sheet:
    """What one child is handed: pages of puzzles.

    `rung` is the band that a sheet of a ladder is named by, `form` the letter of a disguise;
    either is empty where there is only one.
    """

    rung: str
    form: str
    exercises: tuple[Exercise, ...]

    def name(self, words: Words) -> str:
        """Rung and form in words: "Calm, form A"."""
        form = fill(words.worksheet.form, form=self.form) if self.form else ""
        rung = words.grades.bands[self.rung] if self.rung else ""
        named = words.lists.comma.join(each for each in (rung, form) if each)
        return named[:1].upper() + named[1:]


@dataclass(frozen=True, slots=True)
class Worksheet:
    """Everything that is printed; `class_` and `instructions` may be empty."""

    title: str
    class_: str
    instructions: str
    name_line: bool
    date_line: bool
    per_page: int
    helpers: bool
    first_page: bool
    sheets: tuple[Sheet, ...]

    def exercises(self) -> Iterator[Exercise]:
        """The puzzles of all sheets."""
        for sheet in self.sheets:
            yield from sheet.exercises

    def pages_of(self, sheet: Sheet) -> list[Sequence[Exercise]]:
        """The puzzles of each page of a sheet."""
        step, every = self.per_page, sheet.exercises
        return [every[start : start + step] for start in range(0, len(every), step)]
