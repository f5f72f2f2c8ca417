"""A book's job file as a record: what may stand in it, and between which bounds."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final, Literal

from layout.jobs.common.choice_values import MOST_CHOSEN, Grades
from layout.jobs.common.isbn import Isbn
from layout.jobs.common.values import (
    Language,
    ListOf,
    OneOf,
    OutputFolder,
    OutputPath,
    PicturePath,
    TrimSize,
)
from layout.lengths import Length
from layout.pages.common.book import ANSWERS_PER_PAGE, LESSONS, PER_PAGE
from layout.pages.common.format import Trim
from layout.style.own_fonts import NO_FONTS, Fonts
from layout.telling.level import Level
from layout.writers.pdf_x import CONDITIONS, X1A, Press, press_of
from verify.reading.record import Brief, Choice, Every, Flag, Number, Record, Word

STANDARDS: Final[Mapping[str, str]] = {"plain": "", "pdfx-1a": X1A}
"""What each kind of PDF claims to be."""

SIGNATURES: Final = (4, 8, 12, 16, 20, 24, 28, 32, 40, 48, 64)
"""Pages that are folded into one another: four a sheet, and no more than a staple holds."""

LEVELS: Final = tuple(level.value for level in Level)
PENCIL_MARKS: Final = ("needed", "all")

MOST_SECTIONS: Final = 200
MOST_GLOBS: Final = 500
MOST_WALKS: Final = 200


@dataclass(frozen=True, slots=True)
class ImprintJob:
    """Who publishes the book."""

    publisher: Annotated[str, Word(200), "who publishes it, and where"] = ""
    edition: Annotated[str, Word(200), "which edition it is, in words"] = ""
    copyright: Annotated[str, Word(300), "whose the rights are: © 2027 Ida Marsh"] = ""
    isbn: Annotated[str, Isbn(), "its ISBN of 13 digits, with the hyphens to be printed"] = ""
    others: Annotated[
        tuple[str, ...], Every(Word(300)), "more to be printed as it stands, line by line"
    ] = ()


@dataclass(frozen=True, slots=True)
class PictureJob:
    """A picture on a page that opens a part."""

    file: Annotated[str, PicturePath(), "an SVG, PDF or PNG in the job's folder"]
    words: Annotated[
        str,
        Word(1000),
        "what is seen on it, for readers who hear the book; without, they pass it over",
    ] = ""
    width: Annotated[
        float | None, Length(10, 500), "how wide it is; as the page has room unless told"
    ] = None


@dataclass(frozen=True, slots=True)
class SectionJob:
    """A part of the book."""

    title: Annotated[str, Word(200), "the title of the section"]
    puzzles: Annotated[
        tuple[str, ...],
        ListOf(Word(300), "puzzles", MOST_GLOBS),
        "manifests, banks or lines of them (marsh.txt#12-40), or patterns, from the job's folder; "
        "a section of words alone has none",
    ] = ()
    intro: Annotated[
        str, Word(40_000), "words before its puzzles: paragraphs, with *italics* and **bold**"
    ] = ""
    running_title: Annotated[
        str, Word(200), "what stands at the head of its right-hand pages; its title unless told"
    ] = ""
    picture: Annotated[
        PictureJob | None, Brief(PictureJob, "file"), "a picture under the title, or its file alone"
    ] = None
    per_page: Annotated[int, OneOf(PER_PAGE), "puzzles on a page"] = 1
    count: Annotated[
        int, Number(1, MOST_CHOSEN, whole=True), "how many puzzles are chosen; all unless told"
    ] = 0
    grades: Annotated[tuple[str, ...], Grades(), "of which grades they are chosen, with count"] = ()


@dataclass(frozen=True, slots=True)
class FrontJob:
    """What stands before the puzzles."""

    dedication: Annotated[str, Word(2_000), "to whom the book is dedicated, on a page alone"] = ""
    foreword: Annotated[str, Word(40_000), "words before all others, as in a section's intro"] = ""


@dataclass(frozen=True, slots=True)
class AnswersJob:
    """How answers are printed."""

    per_page: Annotated[int, OneOf(ANSWERS_PER_PAGE), "answers on a page"] = 6


@dataclass(frozen=True, slots=True)
class BackJob:
    """What stands behind the puzzles."""

    answers: Annotated[
        AnswersJob, Brief(AnswersJob, "per-page"), "how answers are printed, or how many a page has"
    ] = AnswersJob()
    hints: Annotated[int, Number(0, 5, whole=True), "hints for each puzzle; none unless told"] = 0
    afterword: Annotated[str, Word(40_000), "words after the last section"] = ""
    about: Annotated[str, Word(40_000), "words about the constructors, before their index"] = ""
    walk: Annotated[
        tuple[str, ...],
        ListOf(Word(200), "ids of puzzles", MOST_WALKS, least=0),
        "ids of the puzzles whose walk is printed, with diagrams",
    ] = ()
    walk_level: Annotated[
        str,
        Choice(LEVELS, "level"),
        "how much of a walk is told: what matters most, all but the singles at the end, each digit",
    ] = "whole"
    walk_pages: Annotated[
        int | None,
        Number(1, 99, whole=True),
        "the most pages of a walk: diagrams are left out and less is told rather than take more",
    ] = None
    walk_pencil_marks: Annotated[
        str,
        Choice(PENCIL_MARKS, "pencil marks"),
        "the pencil marks in diagrams: those that a step speaks of, or all",
    ] = "needed"
    colophon: Annotated[
        bool, Flag(), "a last page: fonts, the number of puzzles proved, the book's checksum"
    ] = False


@dataclass(frozen=True, slots=True)
class CoverJob:
    """What stands on the cover, beside what the job says of the whole book."""

    words: Annotated[
        str, Word(4000), "words on the back: paragraphs, with *italics* and **bold**"
    ] = ""
    picture: Annotated[
        str, Word(200), "the id of the puzzle whose shapes are drawn; the first unless told"
    ] = ""
    spine: Annotated[
        float | None, Length(0, 120), "how wide the spine is; by pages and paper unless told"
    ] = None


@dataclass(frozen=True, slots=True)
class OutputJob:
    """The files to be written."""

    pdf: Annotated[str, OutputPath(), "the book's file, from the job's folder"]
    standard: Annotated[
        str,
        Choice(tuple(STANDARDS), "standard"),
        "the kind of PDF: plain has links and an outline, pdfx-1a is what a press asks for",
    ] = "plain"
    condition: Annotated[
        str,
        Choice(CONDITIONS, "printing condition"),
        "the registered printing condition that a pdfx-1a file is for",
    ] = CONDITIONS[0]
    certificates: Annotated[
        str,
        OutputFolder(),
        "a folder, from the job's own, for certificates of all answers; none unless told",
    ] = ""
    screen: Annotated[
        str,
        OutputPath(),
        "a file of its own: the same pages for a screen, told aloud by readers; none unless told",
    ] = ""
    booklet: Annotated[
        str, OutputPath(), "a file of its own: the pages on sheets to be folded; none unless told"
    ] = ""
    signature: Annotated[
        int | None, OneOf(SIGNATURES), "the pages of a gathering of the booklet; all unless told"
    ] = None
    cover: Annotated[
        str, OutputPath(), "a file of its own: back, spine and front; none unless told"
    ] = ""
    caliper: Annotated[
        float | None, Length(0.03, 0.4), "how thick a leaf is; as the style sheet says unless told"
    ] = None

    @property
    def press(self) -> Press | None:
        """What the file is printed by, where it is made as a press asks for."""
        return press_of(self.condition) if self.standard == "pdfx-1a" else None


@dataclass(frozen=True, slots=True)
class BookJob:
    """A book, as its job file tells it."""

    job: Annotated[Literal["book"], "the kind of job: book"]
    title: Annotated[str, Word(200), "the title of the book"]
    trim: Annotated[
        Trim, TrimSize(), "the size of a page as it is cut: A5, letter, 6x9in, 148x210mm"
    ]
    sections: Annotated[
        tuple[SectionJob, ...],
        ListOf(Record(SectionJob), "sections", MOST_SECTIONS),
        "the parts of the book, in their order",
    ]
    output: Annotated[
        OutputJob, Brief(OutputJob, "pdf"), "the files to be written, or that of the pages alone"
    ]
    subtitle: Annotated[str, Word(200), "what stands under the title"] = ""
    author: Annotated[str, Word(200), "who made the book, as it is printed"] = ""
    imprint: Annotated[
        ImprintJob, Brief(ImprintJob, "publisher"), "who publishes the book; a name alone will do"
    ] = ImprintJob()
    language: Annotated[str, Language(), "the language of all that pages say"] = "en"
    bleed: Annotated[
        float, Length(0, 10), "how far pictures go over the trim; not at all unless told"
    ] = 0.0
    style: Annotated[
        str, Word(300), "a style sheet that comes with the program, or a file of your own"
    ] = "paperback"
    fonts: Annotated[
        Fonts,
        Brief(Fonts, "text"),
        "fonts in place of those of the style, by what they are for; that of text alone will do",
    ] = NO_FONTS
    order: Annotated[
        str,
        Choice(("as-listed", "by-grade"), "order"),
        "the order of puzzles within each section; by-grade: the easiest first",
    ] = "as-listed"
    ungraded: Annotated[
        str,
        Choice(("refuse", "print"), "way with ungraded puzzles"),
        "whether puzzles may be printed whose walk ends before the answer",
    ] = "refuse"
    running_title: Annotated[
        str, Word(200), "what stands at the head of left-hand pages; the title unless told"
    ] = ""
    front: Annotated[FrontJob, "what stands before the puzzles"] = FrontJob()
    lessons: Annotated[
        str,
        Choice(LESSONS, "lessons"),
        "how many rules are taught on a page: as many as fit (compact), two, one, or none anywhere",
    ] = "two-up"
    back: Annotated[BackJob, "what stands behind the puzzles"] = BackJob()
    cover: Annotated[CoverJob, "what stands on the cover, if there is one"] = CoverJob()
