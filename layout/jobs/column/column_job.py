"""A newspaper column's job file as a record: what may stand in it, and between which bounds."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf
from types import MappingProxyType
from typing import Annotated, Final, Literal

from layout.jobs.column.column_values import (
    EVERY_DAY,
    DayOrWeek,
    FilePattern,
    FolderPath,
    GradeByDay,
    Some,
    Weekdays,
)
from layout.jobs.column.measure import Depth, Measure, PaperMeasure, Width
from layout.jobs.column.schedule import Span
from layout.jobs.common.values import Language, Several
from layout.pages.column.column import SHOW
from layout.writers.raster import MOST_DPI
from verify.reading.record import Every, Number, Record, Word

FORMATS: Final = ("svg", "pdf", "png", "tiff", "html", "txt")
"""Pictures, the fragment of a web page, and the puzzle in words."""

IN_PIXELS: Final = ("png", "tiff")

LEAST_DPI: Final = 300
"""Dots per inch that a newspaper asks for at least."""

MOST_ISSUES: Final = 2000
MOST_SPECIALS: Final = 20
MOST_GLOBS: Final = 500


@dataclass(frozen=True, slots=True)
class ScheduleJob:
    """On which days a puzzle comes out; until a day, or so many issues (0: not told).

    `first_number` is the number of the first day's puzzle; 0 where it runs on from the ledger.
    """

    from_: Annotated[Span, DayOrWeek()]
    until: Annotated[Span | None, DayOrWeek()] = None
    issues: Annotated[int, Number(1, MOST_ISSUES, whole=True)] = 0
    days: Annotated[frozenset[int], Weekdays()] = EVERY_DAY
    except_: Annotated[tuple[Span, ...], Every(DayOrWeek())] = ()
    grades: Annotated[Mapping[int, str], GradeByDay()] = field(
        default_factory=lambda: MappingProxyType({})
    )
    first_number: Annotated[int, Number(1, 9_999_999, whole=True)] = 0


@dataclass(frozen=True, slots=True)
class SpecialJob:
    """Days with puzzles of another kind: theirs alone, wider and under another title if told."""

    days: Annotated[frozenset[int], Weekdays()]
    puzzles: Annotated[tuple[str, ...], Several(Word(300), "puzzles", MOST_GLOBS)]
    title: Annotated[str, Word(200)] = ""
    columns: Annotated[int | None, Number(1, 16, whole=True)] = None
    width: Width | None = None
    depth: Annotated[float | None, Depth()] = None


@dataclass(frozen=True, slots=True)
class ColumnOutputJob:
    """The files of a day. `name` is theirs but for the ending; what stands in braces differs."""

    folder: Annotated[str, FolderPath()]
    name: Annotated[str, FilePattern()] = "{date}-{id}"
    formats: Annotated[tuple[str, ...], Some(FORMATS, "format")] = ("svg", "pdf")
    dpi: Annotated[int, Number(LEAST_DPI, MOST_DPI, whole=True)] = 600
    one_bit: bool = False


@dataclass(frozen=True, slots=True)
class ColumnJob:
    """A newspaper's daily column, as its job file tells it."""

    job: Literal["column"]
    title: Annotated[str, Word(200)]
    puzzles: Annotated[tuple[str, ...], Several(Word(300), "puzzles", MOST_GLOBS)]
    schedule: ScheduleJob
    output: ColumnOutputJob
    columns: Annotated[int | None, Number(1, 16, whole=True)] = None
    measure: Annotated[Measure | None, PaperMeasure()] = None
    width: Width | None = None
    depth: Annotated[float, Depth()] = inf
    language: Annotated[str, Language()] = "en"
    style: Annotated[str, Word(300)] = "newsprint"
    show: Annotated[tuple[str, ...], Some(SHOW, "item")] = SHOW
    specials: Annotated[
        tuple[SpecialJob, ...], Several(Record(SpecialJob), "specials", MOST_SPECIALS)
    ] = ()
    note: Annotated[str, Word(400)] = ""
