"""A worksheet's job file as a record: what may stand in it, and between which bounds."""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from layout.jobs.book.book_job import MOST_GLOBS, PER_PAGE
from layout.jobs.common.values import Language, OneOf, OutputPath, Several
from verify.reading.record import Number, Word

MOST_FORMS: Final = 26
"""Forms are named by the letters from A to Z."""

RUNGS: Final = (1, 2, 3)


@dataclass(frozen=True, slots=True)
class WorksheetOutput:
    """The files to be written; `key` where the key is a file of its own."""

    pdf: Annotated[str, OutputPath()]
    key: Annotated[str, OutputPath()] = ""


@dataclass(frozen=True, slots=True)
class WorksheetJob:
    """Sheets for a classroom, as their job file tells them.

    `ladder` is how many sheets are made of one set, from calm to stiff, by its givens. `forms`
    is how many disguises of each of them there are.
    """

    job: Literal["worksheet"]
    title: Annotated[str, Word(200)]
    puzzles: Annotated[tuple[str, ...], Several(Word(300), "puzzles", MOST_GLOBS)]
    output: WorksheetOutput
    class_: Annotated[str, Word(100)] = ""
    instructions: Annotated[str, Word(600)] = ""
    reader: Literal["any", "young"] = "any"
    language: Annotated[str, Language()] = "en"
    page: Literal["A4", "letter"] = "A4"
    style: Annotated[str, Word(300)] = "classroom"
    per_page: Annotated[int, OneOf(PER_PAGE)] = 2
    name_line: bool = True
    date_line: bool = True
    symbols: Literal["as-written", "shapes"] = "as-written"
    helpers: Literal["none", "edges"] = "none"
    forms: Annotated[int, Number(1, MOST_FORMS, whole=True)] = 1
    ladder: Annotated[int, OneOf(RUNGS)] = 1
    first_page: bool = False
    key: Literal["separate", "last-page", "none"] = "separate"
