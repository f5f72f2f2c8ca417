"""A book as its pages see it: words and proved puzzles, in order."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from layout.artwork.artwork import Artwork
from layout.pages.common.misfit import JobPath
from layout.telling.level import Level
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle
from verify.walk.report.grade import Grade
from verify.walk.told.path import ToldPath

PER_PAGE: Final = (1, 2, 4, 6)
"""Puzzles on a page."""

ANSWERS_PER_PAGE: Final = (4, 6, 9, 12)
"""Answers on a page."""

LESSONS: Final = ("two-up", "one", "compact", "none")
"""Rules that are taught on a page: two, one, as many as fit, or none in the book."""


@dataclass(frozen=True, slots=True)
class Numbered:
    """A puzzle with its number in the book, its one answer, and the walk that leads there.

    The answer is empty in a rehearsal, where nothing is proved.
    """

    number: int
    puzzle: Puzzle
    answer: Answer
    path: ToldPath | None
    grade: Grade

    @property
    def puzzle_anchor(self) -> str:
        """Where the puzzle is printed."""
        return f"puzzle-{self.puzzle.id}"

    @property
    def hints_anchor(self) -> str:
        """Where its hints are printed, if they are."""
        return f"hints-{self.puzzle.id}"

    @property
    def answer_anchor(self) -> str:
        """Where its answer is printed."""
        return f"answer-{self.puzzle.id}"

    @property
    def walk_anchor(self) -> str:
        """Where its walk begins, if it is printed."""
        return f"walk-{self.puzzle.id}"


@dataclass(frozen=True, slots=True)
class Illustration:
    """A picture on the page that opens a part, and words for those who can't see it.

    It is as large as the page has room for, or so wide in millimetres. `path` is where it stands
    in the job.
    """

    artwork: Artwork
    path: JobPath
    words: str = ""
    width: float | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the book: a title, words in light markup, and puzzles, of which it may have none.

    `running_title` stands at the head of its rectos, or where it is empty the title.
    """

    title: str
    intro: str
    puzzles: tuple[Numbered, ...]
    per_page: int
    running_title: str = ""
    picture: Illustration | None = None

    @property
    def head(self) -> str:
        """What stands at the head of its rectos."""
        return self.running_title or self.title


@dataclass(frozen=True, slots=True)
class Imprint:
    """Who publishes the book; empty where the job is silent. `isbn` has its hyphens."""

    publisher: str = ""
    edition: str = ""
    isbn: str = ""
    lines: tuple[str, ...] = ()
    copyright: str = ""


@dataclass(frozen=True, slots=True)
class Matter:
    """Words around the puzzles, in light markup; empty where the book has none.

    `about` is said of the constructors. `running_title` stands at the head of versos, or where it
    is empty the book's title.
    """

    dedication: str = ""
    foreword: str = ""
    afterword: str = ""
    about: str = ""
    running_title: str = ""


NO_MATTER: Final = Matter()


@dataclass(frozen=True, slots=True)
class WalkChoice:
    """How much of a walk is printed: the level, on so many pages at the most, with which marks.

    `limit` is where the most pages stand in the job.
    """

    level: Level = Level.WHOLE
    most_pages: int | None = None
    every_mark: bool = False
    limit: JobPath = ()


USUAL_CHOICE: Final = WalkChoice()


@dataclass(frozen=True, slots=True)
class Book:
    """Everything that is printed, in the order in which a reader finds it.

    `hints` is how many each puzzle has at the most, `walks` the puzzles whose solve path is
    printed, and `walk_choice` how much of it. `lessons` is one of LESSONS. With a `checksum` there
    is a colophon that tells it.
    """

    title: str
    subtitle: str
    author: str
    imprint: Imprint
    sections: tuple[Section, ...]
    answers_per_page: int
    hints: int = 0
    walks: tuple[Numbered, ...] = ()
    walk_choice: WalkChoice = USUAL_CHOICE
    checksum: str = ""
    lessons: str = LESSONS[0]
    matter: Matter = NO_MATTER

    def puzzles(self) -> Iterator[Numbered]:
        """All puzzles by their numbers."""
        for section in self.sections:
            yield from section.puzzles
