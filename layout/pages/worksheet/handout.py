"""A handout as its pages see it: the worksheets of one job, and what each of them says."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.language.words import Words, fill
from layout.telling.level import Level
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.report.grade import Grade

DOT: Final = "•"
"""What rungs of a ladder are told apart by on their sheets: one dot, two, three."""


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

    `rung` counts the worksheets of a ladder from 1, the calmest; it is 0 where there is no ladder.
    `band` is what the rung is called where grades make the ladder, `form` the letter of a
    disguise; both may be empty.
    """

    rung: int
    band: str
    form: str
    exercises: tuple[Exercise, ...]

    def name(self, words: Words) -> str:
        """As it stands on the sheet, where no child reads how hard it is: "••, form A"."""
        return _listed((DOT * self.rung, self._form(words)), words)

    def key_name(self, words: Words) -> str:
        """As it stands in the key: "•• steady, form A"."""
        said = words.grades.bands[self.band] if self.band else ""
        if self.rung and not self.band:
            said = fill(words.worksheet.givens.of(self.givens), count=self.givens)
        rung = " ".join(each for each in (DOT * self.rung, said) if each)
        return _listed((rung, self._form(words)), words)

    @property
    def givens(self) -> int:
        """How many digits its grids have together from the start."""
        return sum(1 for each in self.exercises for given in each.puzzle.givens if given)

    def _form(self, words: Words) -> str:
        return fill(words.worksheet.form, form=self.form) if self.form else ""


def _listed(parts: Sequence[str], words: Words) -> str:
    """What there is of some parts, the first letter a capital."""
    named = words.lists.comma.join(each for each in parts if each)
    return named[:1].upper() + named[1:]


@dataclass(frozen=True, slots=True)
class Copy:
    """A worksheet as it is handed out; `pupil` is empty where whoever gets it writes the name."""

    worksheet: Worksheet
    pupil: str = ""


@dataclass(frozen=True, slots=True)
class Handout:
    """All worksheets of a job, and what is printed on each; `class_`, `instructions` may be empty.

    `per_page` puzzles stand on a page, with `helpers` small digits in their cells. `first_page`
    is one of worked examples, whose first steps are told at a `level`. With `duplex` whatever is
    handed out by itself begins on a leaf of its own; with `strips` narrow columns of answers, to
    be cut apart, follow the key.
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
    duplex: bool
    strips: bool
    worksheets: tuple[Worksheet, ...]
    copies: tuple[Copy, ...]

    def exercises(self) -> Iterator[Exercise]:
        """The puzzles of all worksheets."""
        for worksheet in self.worksheets:
            yield from worksheet.exercises

    def pages_of(self, worksheet: Worksheet) -> list[Sequence[Exercise]]:
        """The puzzles of each page of a worksheet."""
        step, every = self.per_page, worksheet.exercises
        return [every[start : start + step] for start in range(0, len(every), step)]
