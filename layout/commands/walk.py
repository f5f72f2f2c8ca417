"""`reglet walk PUZZLE.yaml`: the solve path in words, or on pages with diagrams."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Final

from layout.commands.language import add_language
from layout.commands.seconds import add_seconds, budget_of
from layout.commands.walk_slides import EACH, IMAGES, write_slides
from layout.console import answer, answer_json, complain, counted, tell

if TYPE_CHECKING:
    from layout.pages.common.format import Trim
    from layout.pages.walk.walk_pages import PrintedWalk
    from layout.style.style import Style
    from layout.telling.telling import Telling
    from verify.budget import Deadline
    from verify.proof.verdict import Verdict
    from verify.puzzle import Puzzle
    from verify.walk.told.path import ToldPath
    from verify.walk.walk import Walk

LEVELS: Final = ("moments", "whole", "every", "first-timer")
USUAL_LEVEL: Final = "whole"
PENCIL_MARKS: Final = ("needed", "all")
MOST_PAGES: Final = 999
USUAL_STYLE: Final = "paperback"
USUAL_TRIM: Final = "A4"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("puzzle", type=Path, metavar="PUZZLE", help="a manifest")
    add_language(parser)
    parser.add_argument(
        "--pages", type=_pages, metavar="FILE", help="write pages with diagrams to this .pdf"
    )
    parser.add_argument(
        "--style", default=USUAL_STYLE, metavar="NAME", help="a style's name, or its file"
    )
    parser.add_argument(
        "--trim", type=_trim, default=USUAL_TRIM, metavar="SIZE", help="of pages, such as 6x9in"
    )
    parser.add_argument(
        "--level",
        choices=LEVELS,
        default=USUAL_LEVEL,
        help="what matters most; all but the last singles; each digit; or in words for a beginner",
    )
    parser.add_argument(
        "--most-pages", type=_count, metavar="N", help="tell and draw less rather than take more"
    )
    parser.add_argument(
        "--pencil-marks",
        choices=PENCIL_MARKS,
        default=PENCIL_MARKS[0],
        help="in diagrams: those that a step speaks of, or all",
    )
    parser.add_argument(
        "--report", action="store_true", help="break-in, tightest point, what is not needed"
    )
    group = parser.add_argument_group("slides, 16 to 9, for a wall")
    group.add_argument(
        "--slides", type=Path, metavar="DIR", help="write images to this folder, or to one .pdf"
    )
    group.add_argument("--images", choices=IMAGES, default=IMAGES[0], help="in a folder")
    group.add_argument("--each", choices=EACH, default=EACH[0], help="what a slide is for")
    add_seconds(parser, "the walk, and the proof where there are pages")


def _pages(text: str) -> Path:
    path = Path(text)
    if path.suffix.lower() != ".pdf":
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a file that ends in .pdf")
    return path


def _count(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text[:6]) <= MOST_PAGES:
        expected = f"a whole number from 1 to {MOST_PAGES}"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}")
    return int(text)


def _trim(text: str) -> "Trim":
    from layout.jobs.common.values import TrimSize
    from verify.reading.node import Place, Text
    from verify.reading.problems import Problems

    problems = Problems()
    trim = TrimSize().read(Text(Place("--trim", 1, 1), text, ()), problems)
    if trim is None:
        raise argparse.ArgumentTypeError(problems.found[0].message)
    return trim


def run(options: argparse.Namespace) -> int:
    """Prints the walk, or writes its pages; 1 where the known techniques don't lead to its end.

    Raises Unreadable where the manifest or the style can't be read, and OutputError where the
    pages can't be written.
    """
    from layout.output.files import refuse_inputs
    from verify.manifest.read import read_puzzle
    from verify.proof.verdict import prove
    from verify.walk.told.path import told_path
    from verify.walk.walk import walk

    if options.pages is not None:
        refuse_inputs(options.pages, _inputs(options))
    deadline = budget_of(options).deadline()
    puzzle = read_puzzle(options.puzzle)
    verdict = prove(puzzle, deadline=deadline)
    walked = walk(puzzle, reasons=False, deadline=deadline)
    path = told_path(puzzle, deadline)
    if walked.cut_short or path.cut_short:
        complain(f"{options.puzzle}: its walk ends where {options.seconds:g} seconds were over")
    has_outputs = options.pages is not None or options.slides is not None
    if has_outputs:
        code = _write(puzzle, walked, path, deadline, options)
        if code:
            return code
    if options.json or options.report or not has_outputs:
        _answer(puzzle, verdict, walked, path, options)
    return 0 if path.finished else 1


def _answer(
    puzzle: "Puzzle",
    verdict: "Verdict",
    walked: "Walk",
    path: "ToldPath",
    options: argparse.Namespace,
) -> None:
    """Prints the walk, the report on it, or their JSON document."""
    from layout.commands.walk_json import document, report_facts, verdict_facts
    from layout.language.words import read_words
    from layout.telling.level import Level
    from layout.telling.report import tell_report
    from layout.telling.telling import tell_walk
    from layout.telling.verdicts import with_verdict
    from verify.walk.report.report import report as make_report

    words = read_words(options.language)
    telling = tell_walk(puzzle, path, words, Level(options.level))
    telling = with_verdict(telling, path, puzzle, verdict, words)
    report = make_report(puzzle, walked, path) if options.report else None
    if options.json:
        extra = verdict_facts(puzzle.board, verdict, path)
        extra |= {} if report is None else {"report": report_facts(puzzle, report)}
        answer_json(document(puzzle, telling, walked, options.level) | extra)
    elif report is not None:
        lines = tell_report(puzzle, report, telling, words)
        first = [telling.verdict, ""] if telling.verdict else []
        answer("\n".join([puzzle.title, "", *first, *lines]))
    else:
        answer(_text(puzzle, telling))
    state = "finished" if path.finished else "not finished"
    tell(f"{options.puzzle}: {state}, {counted(len(telling.steps), 'step')}", options.quiet)


def _write(
    puzzle: "Puzzle",
    walked: "Walk",
    path: "ToldPath",
    deadline: "Deadline",
    options: argparse.Namespace,
) -> int:
    """Writes pages and slides, each whole or not at all; the exit code."""
    from layout.commands.misfits import complain_of
    from layout.commands.proved import proved
    from layout.pages.common.misfit import Misfits
    from layout.picture.cannot import CannotDraw
    from layout.style.style import named_style

    if proved(puzzle, deadline) is None:
        return 1
    style = named_style(options.style)
    try:
        printed = _printed(puzzle, walked, path, style, options)
        if options.pages is not None:
            _write_pages(printed, style, options)
        if options.slides is not None:
            write_slides(
                printed,
                style,
                options.language,
                options.slides,
                options.images,
                by_sentence=options.each == "sentence",
                inputs=_inputs(options),
                quiet=options.quiet,
            )
    except Misfits as misfits:
        complain_of(misfits, "walk", "--trim")
        return 2
    except CannotDraw as fault:
        complain(f"reglet walk: {options.puzzle}: {fault}")
        return 2
    return 0


def _inputs(options: argparse.Namespace) -> list[Path]:
    """What is read, and never written over."""
    return [options.puzzle, Path(options.style)]


def _printed(
    puzzle: "Puzzle",
    walked: "Walk",
    path: "ToldPath",
    style: "Style",
    options: argparse.Namespace,
) -> "PrintedWalk":
    """The walk as pages and slides take it. Raises Misfits for letters that no font has."""
    from layout.pages.common.book import WalkChoice
    from layout.pages.common.letters import check_texts
    from layout.pages.walk.walk_pages import PrintedWalk
    from layout.telling.level import Level
    from verify.walk.report.grade import grade

    check_texts((), [puzzle], style)
    choice = WalkChoice(
        Level(options.level),
        options.most_pages,
        options.pencil_marks == "all",
        ("most-pages",),
    )
    return PrintedWalk(puzzle, path, grade(walked), anchor="walk", choice=choice)


def _write_pages(printed: "PrintedWalk", style: "Style", options: argparse.Namespace) -> None:
    """Writes the pages, read back."""
    from layout.jobs.common.read_back import read_back
    from layout.language.words import read_words
    from layout.output.write import write_whole
    from layout.pages.book.walk_document import walk_document
    from layout.writers.pdf import pdf_of_document

    laid = walk_document(printed, style, read_words(options.language), options.trim)
    write_whole(options.pages, pdf_of_document(laid), lambda beside: read_back(beside, laid))
    tell(f"{options.pages}: {counted(len(laid.leaves), 'page')}", options.quiet)


def _text(puzzle: "Puzzle", telling: "Telling") -> str:
    """Title, what must be known first, summary, numbered paragraphs, and why it goes no further
    where it does not.
    """
    numbered = "\n".join(f"{each.number}. {each.words}" for each in telling.paragraphs)
    parts = [puzzle.title, telling.verdict, telling.summary, numbered, telling.end]
    return "\n\n".join(part for part in parts if part)
