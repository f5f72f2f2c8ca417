"""A book's job file as a record: what may stand in it, and between which bounds."""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from layout.jobs.common.values import (
    Isbn,
    Language,
    NotYet,
    OneOf,
    OutputPath,
    Several,
    SoFar,
    TrimSize,
)
from layout.lengths import Length
from layout.pages.common.format import Trim
from verify.reading.record import Choice, Every, Number, Record, Word

PER_PAGE: Final = (1, 2, 4, 6)
ANSWERS_PER_PAGE: Final = (4, 6, 9, 12)

MOST_SECTIONS: Final = 200
MOST_GLOBS: Final = 500
MOST_WALKS: Final = 200


@dataclass(frozen=True, slots=True)
class ImprintJob:
    """Who publishes the book. `others` is printed as it stands, line by line."""

    publisher: Annotated[str, Word(200)] = ""
    edition: Annotated[str, Word(200)] = ""
    isbn: Annotated[str, Isbn()] = ""
    others: Annotated[tuple[str, ...], Every(Word(300))] = ()


@dataclass(frozen=True, slots=True)
class SectionJob:
    """A part of the book; `puzzles` are file names or patterns with `*`."""

    title: Annotated[str, Word(200)]
    puzzles: Annotated[tuple[str, ...], Several(Word(300), "puzzles", MOST_GLOBS)]
    intro: Annotated[str, Word(40_000)] = ""
    per_page: Annotated[int, OneOf(PER_PAGE)] = 1


@dataclass(frozen=True, slots=True)
class AnswersJob:
    """How answers are printed."""

    per_page: Annotated[int, OneOf(ANSWERS_PER_PAGE)] = 6


@dataclass(frozen=True, slots=True)
class BackJob:
    """What stands behind the puzzles; `walk` lists the ids of those whose walk is printed."""

    answers: AnswersJob = AnswersJob()
    hints: Annotated[int, Number(0, 5, whole=True)] = 0
    walk: Annotated[tuple[str, ...], Several(Word(200), "ids of puzzles", MOST_WALKS, least=0)] = ()


@dataclass(frozen=True, slots=True)
class OutputJob:
    """The files to be written."""

    pdf: Annotated[str, OutputPath()]
    standard: Annotated[str, SoFar(("plain",), ("pdfx-1a",), "standard")] = "plain"
    screen: Annotated[str, NotYet("a screen edition")] = ""
    booklet: Annotated[str, NotYet("an imposed booklet")] = ""
    cover: Annotated[str, NotYet("a cover")] = ""
    caliper: Annotated[str, NotYet("a cover")] = ""


@dataclass(frozen=True, slots=True)
class BookJob:
    """A book, as its job file tells it."""

    job: Literal["book"]
    title: Annotated[str, Word(200)]
    trim: Annotated[Trim, TrimSize()]
    sections: Annotated[
        tuple[SectionJob, ...], Several(Record(SectionJob), "sections", MOST_SECTIONS)
    ]
    output: OutputJob
    subtitle: Annotated[str, Word(200)] = ""
    author: Annotated[str, Word(200)] = ""
    imprint: ImprintJob = ImprintJob()
    language: Annotated[str, Language()] = "en"
    bleed: Annotated[float, Length(0, 10)] = 0.0
    style: Annotated[str, Word(300)] = "paperback"
    order: Annotated[str, Choice(("as-listed", "by-grade"), "order")] = "as-listed"
    ungraded: Annotated[str, Choice(("refuse", "print"), "way with ungraded puzzles")] = "refuse"
    back: BackJob = BackJob()
