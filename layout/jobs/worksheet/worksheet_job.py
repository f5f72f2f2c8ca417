"""A worksheet's job file as a record: what may stand in it, and between which bounds."""

from dataclasses import dataclass
from typing import Annotated, Final, Literal

from layout.jobs.book.book_job import LEVELS
from layout.jobs.common.choice_values import MOST_CHOSEN, Grades
from layout.jobs.common.composition import Composition, PuzzlesValue
from layout.jobs.common.values import Language, OneOf, OutputPath
from layout.jobs.worksheet.worksheet_values import (
    FormsPath,
    Ladder,
    LadderValue,
    PupilNames,
    PupilsValue,
)
from layout.pages.common.book import PER_PAGE
from verify.reading.record import Choice, Number, Word

MOST_FORMS: Final = 26
"""Forms are named by the letters from A to Z."""


@dataclass(frozen=True, slots=True)
class WorksheetOutput:
    """The files to be written: `pdf` has all sheets, `forms` names one for each of them."""

    pdf: Annotated[str, OutputPath(), "the file of all sheets, from the job's folder"] = ""
    forms: Annotated[str, FormsPath(), "a file for each form or rung: build/{form}.pdf"] = ""
    slides: Annotated[str, OutputPath(), "a file of slides of the first sheet's puzzles"] = ""
    key: Annotated[str, OutputPath(), "the file of the key, where that is a file of its own"] = ""
    screen: Annotated[
        str, OutputPath(), "a tagged file of all sheets (PDF/UA-1), for readers who hear it"
    ] = ""


NO_LADDER: Final = Ladder(rungs=1)

NO_PUPILS: Final = PupilNames()


@dataclass(frozen=True, slots=True)
class WorksheetJob:
    """Sheets for a classroom, as their job file tells them."""

    job: Annotated[Literal["worksheet"], "the kind of job: worksheet"]
    title: Annotated[str, Word(200), "the title of the sheets"]
    puzzles: Annotated[
        tuple[str, ...] | Composition,
        PuzzlesValue(),
        "manifests, banks or lines of them (marsh.txt#12-40), or patterns, from the job's folder;"
        " or what is composed",
    ]
    output: Annotated[WorksheetOutput, "the files to be written"]
    count: Annotated[
        int, Number(1, MOST_CHOSEN, whole=True), "how many puzzles are chosen; all unless told"
    ] = 0
    grades: Annotated[tuple[str, ...], Grades(), "of which grades they are chosen, with count"] = ()
    class_: Annotated[str, Word(100), "for whom it is, as it is printed"] = ""
    instructions: Annotated[str, Word(600), "your own words for the task"] = ""
    reader: Annotated[Literal["any", "young"], "whom sentences are for; young: short ones"] = "any"
    language: Annotated[str, Language(), "the language of all that sheets say"] = "en"
    page: Annotated[Literal["A4", "letter"], "the size of a sheet"] = "A4"
    style: Annotated[
        str, Word(300), "a style sheet that comes with the program, or a file of your own"
    ] = "classroom"
    per_page: Annotated[int, OneOf(PER_PAGE), "puzzles on a sheet"] = 2
    name_line: Annotated[bool, "whether there is a line for a name"] = True
    date_line: Annotated[bool, "whether there is a line for a date"] = True
    symbols: Annotated[
        Literal["as-written", "shapes"], "what stands for digits; shapes: drops, stars, fish"
    ] = "as-written"
    helpers: Annotated[
        Literal["none", "edges"], "edges: all digits small in open cells, to be crossed out"
    ] = "none"
    forms: Annotated[
        int, Number(1, MOST_FORMS, whole=True), "in how many disguises each sheet is made"
    ] = 1
    ladder: Annotated[
        Ladder, LadderValue(), "how many sheets are made of one set, from calm to stiff"
    ] = NO_LADDER
    pupils: Annotated[
        PupilNames, PupilsValue(), "who gets a sheet with the name on it, in turn by form"
    ] = NO_PUPILS
    duplex: Annotated[bool, "whether each sheet, and the key, begins on a leaf of its own"] = True
    first_page: Annotated[bool, "whether a page before the sheets shows each rule at work"] = False
    walk_level: Annotated[
        str,
        Choice(LEVELS, "level"),
        "how the first steps on that page are told; for young readers first-timer unless told",
    ] = ""
    key: Annotated[Literal["separate", "last-page", "none"], "where the answers stand"] = "separate"
    strips: Annotated[bool, "whether answers to cut apart follow the key"] = False
