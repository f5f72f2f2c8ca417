"""A handout as its pages see it: the worksheets of one job, and what each of them says."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from layout.language.words import Words, fill
from layout.telling.level import Level
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.report.grade import Grade


@dataclass(frozen=True, slots=True)
class Exercise:
    """A puzzle with its number on the worksheet, its one answer and its grade."""

    number: int
    puzzle: Puzzle
    answer: Answer
    grade: Grade


@dataclass(frozen=True, slots=True)
class Worksheet:
    """What one child is handed: pages of puzzles.

    `rung` is the band that a worksheet of a ladder is named by, `form` the letter of a disguise;
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
class Handout:
    """All worksheets of a job, and what is printed on each; `class_`, `instructions` may be empty.

    `per_page` puzzles stand on a page, with `helpers` small digits in their cells. `first_page`
    is one of worked examples, whose first steps are told at a `level`.
    """

    title: str
    class_: str
    instructions: str
    name_line: bool
    date_line: bool
    per_page: int
    helpers: bool
    first_page: bool
    level: Level
    worksheets: tuple[Worksheet, ...]

    def exercises(self) -> Iterator[Exercise]:
        """The puzzles of all worksheets."""
        for worksheet in self.worksheets:
            yield from worksheet.exercises

    def pages_of(self, worksheet: Worksheet) -> list[Sequence[Exercise]]:
        """The puzzles of each page of a worksheet."""
        step, every = self.per_page, worksheet.exercises
        return [every[start : start + step] for start in range(0, len(every), step)]
