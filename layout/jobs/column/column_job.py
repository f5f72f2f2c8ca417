"""A newspaper column's job file as a record: what may stand in it, and between which bounds."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf
from types import MappingProxyType
from typing import Annotated, Final, Literal

from layout.jobs.column.column_values import (
    EVERY_DAY,
    DayOrWeek,
    DaysWithout,
    Editions,
    FilePattern,
    GradeByDay,
    Some,
    Weekdays,
)
from layout.jobs.column.measure import Depth, Measure, PaperMeasure, Width
from layout.jobs.column.press_profile import NO_PROFILE, PressProfile, PressProfileValue
from layout.jobs.column.schedule import DaySpan
from layout.jobs.common.composition import Composition, PuzzlesValue
from layout.jobs.common.values import Language, ListOf, OutputFolder, OutputPath
from layout.pages.column.column import SHOW, Arrangement, Due
from layout.writers.raster import MOST_DPI
from verify.reading.record import Every, Number, Record, Word

FORMATS: Final = ("svg", "pdf", "png", "tiff", "html", "txt")
"""Pictures, the fragment of a web page, and the puzzle in words."""

IN_PIXELS: Final = ("png", "tiff")

LEAST_DPI: Final = 300
"""Dots per inch that a newspaper asks for at least."""

MOST_ISSUES: Final = 2000
MOST_SPECIALS: Final = 20


@dataclass(frozen=True, slots=True)
class ScheduleJob:
    """On which days a puzzle comes out. `issues` and `first_number` are 0 where not told."""

    from_: Annotated[DaySpan, DayOrWeek(), "the first day: 2027-03-01, or a week: 2027-W09"]
    until: Annotated[DaySpan | None, DayOrWeek(), "the last day, or week; or say issues"] = None
    issues: Annotated[
        int, Number(1, MOST_ISSUES, whole=True), "how many days have a puzzle; or say until"
    ] = 0
    days: Annotated[
        frozenset[int], Weekdays(), "on which days of the week it comes out; on all unless told"
    ] = EVERY_DAY
    except_: Annotated[
        tuple[DaySpan | str, ...],
        Every(DaysWithout()),
        "days, weeks and intervals without it, or files of them: .ics or .txt",
    ] = ()
    grades: Annotated[
        Mapping[int, frozenset[str]],
        GradeByDay(),
        "how hard a puzzle is to be, by days of the week",
    ] = field(default_factory=lambda: MappingProxyType({}))
    first_number: Annotated[
        int,
        Number(1, 9_999_999, whole=True),
        "the number of the first day's puzzle; else numbers run on from the ledger",
    ] = 0


@dataclass(frozen=True, slots=True)
class SpecialJob:
    """Days with puzzles of another kind: theirs alone, wider and under another title if told."""

    days: Annotated[frozenset[int], Weekdays(), "the days of the week that they come out on"]
    puzzles: Annotated[
        tuple[str, ...] | Composition,
        PuzzlesValue(),
        "manifests, banks or lines of them (marsh.txt#12-40), or patterns, from the job's folder;"
        " or what is composed",
    ]
    title: Annotated[str, Word(200), "the heading on these days; else the column's own"] = ""
    columns: Annotated[
        int | None, Number(1, 16, whole=True), "how many of the paper's columns it is wide then"
    ] = None
    width: Annotated[Width | None, "how wide it is then, instead of columns"] = None
    depth: Annotated[float | None, Depth(), "how deep it may be then, or as-needed"] = None


@dataclass(frozen=True, slots=True)
class ColumnOutputJob:
    """The files of a day."""

    folder: Annotated[str, OutputFolder(), "where they and the ledger stand, from the job's folder"]
    name: Annotated[
        str,
        FilePattern(),
        "their name without its ending, with {date}, {week}, {day}, {number}, {id}, {grade} or "
        "{edition} in it",
    ] = "{date}-{id}"
    formats: Annotated[
        tuple[str, ...], Some(FORMATS, "format"), "what is made of a day; svg and pdf unless told"
    ] = ("svg", "pdf")
    dpi: Annotated[
        int, Number(LEAST_DPI, MOST_DPI, whole=True), "dots per inch of png and tiff"
    ] = 600
    one_bit: Annotated[bool, "whether png and tiff are in black and white alone, tints as dots"] = (
        False
    )
    last_answer: Annotated[
        bool,
        "whether the last puzzle's answer has files of its own, for the day on which it is due",
    ] = False
    profile: Annotated[
        PressProfile,
        PressProfileValue(),
        "how the press prints greys, for images and PDF, but not where they have one bit: a grey "
        "ICC file, or a dot gain such as 26%",
    ] = NO_PROFILE
    proof: Annotated[
        str, OutputPath(), "a file to be signed: all days of the run, their answers, a calendar"
    ] = ""
    weekly: Annotated[
        bool, "whether each week's files come in one zip, too, with lists of them in CSV and JSON"
    ] = False


@dataclass(frozen=True, slots=True)
class EditionJob:
    """One of several papers that print a season; what it does not say is as the job has it."""

    title: Annotated[str | None, Word(200), "the heading of each day"] = None
    columns: Annotated[
        int | None, Number(1, 16, whole=True), "how many of its columns it is wide"
    ] = None
    measure: Annotated[Measure | None, PaperMeasure(), "its columns"] = None
    width: Annotated[Width | None, "how wide it is, instead of columns and measure"] = None
    depth: Annotated[float | None, Depth(), "how deep it may be, or as-needed"] = None
    language: Annotated[str | None, Language(), "the language of all that it says"] = None
    style: Annotated[str | None, Word(300), "a style sheet, or a file of your own"] = None
    arrange: Annotated[Arrangement | None, "whether words stand below the grid or beside it"] = None
    answer: Annotated[Due | None, "which answer its html and txt have"] = None
    show: Annotated[tuple[str, ...] | None, Some(SHOW, "item"), "what stands in it"] = None
    note: Annotated[str | None, Word(400), "its own words below"] = None
    credit: Annotated[str | None, Word(200), "whom its images credit"] = None
    formats: Annotated[tuple[str, ...] | None, Some(FORMATS, "format"), "its formats"] = None


@dataclass(frozen=True, slots=True)
class ColumnJob:
    """A newspaper's daily column, as its job file tells it."""

    job: Annotated[Literal["column"], "the kind of job: column"]
    title: Annotated[str, Word(200), "the heading of each day"]
    puzzles: Annotated[
        tuple[str, ...] | Composition,
        PuzzlesValue(),
        "manifests, banks or lines of them (marsh.txt#12-40), or patterns, from the job's folder;"
        " or what is composed",
    ]
    schedule: Annotated[ScheduleJob, "on which days a puzzle comes out, and how hard it is"]
    output: Annotated[ColumnOutputJob, "the files to be written"]
    columns: Annotated[
        int | None, Number(1, 16, whole=True), "how many of the paper's columns it is wide"
    ] = None
    measure: Annotated[
        Measure | None,
        PaperMeasure(),
        "the paper's columns: a name, one column and its gutter, or a width for each number",
    ] = None
    width: Annotated[Width | None, "how wide it is, instead of columns and measure"] = None
    depth: Annotated[
        float, Depth(), "how deep it may be, or as-needed, which it is unless told"
    ] = inf
    language: Annotated[str, Language(), "the language of all that it says"] = "en"
    style: Annotated[
        str, Word(300), "a style sheet that comes with the program, or a file of your own"
    ] = "newsprint"
    arrange: Annotated[
        Arrangement, "whether words stand below the grid or beside it; best: where they have room"
    ] = "best"
    answer: Annotated[
        Due,
        "which answer html and txt have: their own, that of the day before, or none",
    ] = "same-day"
    show: Annotated[
        tuple[str, ...], Some(SHOW, "item"), "what stands in it, in this order; all unless told"
    ] = SHOW
    specials: Annotated[
        tuple[SpecialJob, ...],
        ListOf(Record(SpecialJob), "specials", MOST_SPECIALS),
        "days with puzzles of another kind, wider and under another title if told",
    ] = ()
    note: Annotated[str, Word(400), "the paper's own words below it"] = ""
    credit: Annotated[str, Word(200), "whom images credit, for picture desks: an agency"] = ""
    editions: Annotated[
        Mapping[str, EditionJob],
        Editions(Record(EditionJob)),
        "several papers with one season and one ledger, by their names",
    ] = field(default_factory=lambda: MappingProxyType({}))
