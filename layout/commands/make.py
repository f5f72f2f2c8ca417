"""`reglet make JOB.yaml`: the whole job."""

import argparse
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from layout.commands.seconds import add_seconds, budget_of
from layout.console import answer, answer_json, complain, progress, tell

if TYPE_CHECKING:
    from layout.jobs.common.making import Outcome
    from layout.jobs.common.proving import MayNotBePrinted
    from layout.pages.book.extract import PageRange
    from verify.reading.problems import Unreadable

LONGEST_LABEL: Final = 12
"""Characters of a page's number."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("job", type=Path, metavar="JOB", help="a job file")
    parser.add_argument(
        "--puzzles",
        type=Path,
        metavar="ROOT",
        help="the folder that the job's puzzles lie in (default: the job's own)",
    )
    parser.add_argument(
        "--from",
        type=_day,
        dest="since",
        metavar="DATE",
        help="make the days of a column anew from that day on, such as 2027-01-04",
    )
    parser.add_argument(
        "--dry-run",
        action="store_true",
        help="print the calendar of a column, with the puzzle of each day, and write nothing",
    )
    parser.add_argument(
        "--no-cache", action="store_true", help="neither look up grades of before nor keep any"
    )
    parser.add_argument(
        "--unused",
        type=Path,
        metavar="FOLDER",
        help="also tell the manifests of a folder that no line of the job uses",
    )
    parser.add_argument(
        "--draft",
        action="store_true",
        help="set a book unproved, without hints and walks, each page marked as a draft",
    )
    parser.add_argument(
        "--pages",
        type=_pages,
        metavar="PAGES",
        help="only these pages of a book, as they are numbered: 20-31, or iv",
    )
    add_seconds(parser, "each puzzle's proof, and as many for its walk")


def _day(text: str) -> date:
    from layout.jobs.column.schedule import span_of

    span = span_of(text.strip())
    if span is None:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a day such as 2027-01-04")
    return span.first


def _pages(text: str) -> "PageRange":
    from layout.pages.book.extract import PageRange

    first, dash, last = (part.strip() for part in text.partition("-"))
    if not _is_label(first) or (dash and not _is_label(last)):
        raise argparse.ArgumentTypeError(f"found {text!r}, expected pages such as 20-31, or iv")
    return PageRange(first, last or first)


def _is_label(text: str) -> bool:
    """Whether pages may be numbered so."""
    return (
        len(text) <= LONGEST_LABEL
        and (text.isdecimal() or set(text) <= set("ivxlcdm"))
        and text != ""
    )


def run(options: argparse.Namespace) -> int:
    """Makes the job; 1 where a puzzle may not be printed as it is.

    Raises Unreadable for a job or a puzzle that can't be used.
    """
    from layout.jobs.common.making import Making, Proof
    from layout.jobs.common.proving import MayNotBePrinted
    from layout.jobs.make import make
    from layout.output.grades import grades_beside
    from verify.reading.problems import Unreadable

    unused = _told_unused(options)
    bars = partial(progress, quiet=options.quiet)
    say = partial(tell, quiet=options.quiet)
    grades = _no_grades if options.no_cache else partial(grades_beside, quiet=options.quiet)
    budget, proof = budget_of(options), Proof(options.draft, options.pages)
    making = Making(
        options.puzzles,
        options.jobs,
        bars,
        options.since,
        budget,
        say,
        grades,
        proof,
        options.dry_run,
    )
    try:
        outcome = make(options.job, making)
    except MayNotBePrinted as refused:
        return _refuse(refused, options)
    except Unreadable as unreadable:
        if options.json:
            answer_json({**_head(options), "written": [], "errors": _errors(unreadable)})
        raise
    if options.json:
        answer_json(_document(outcome, options) | unused)
    elif outcome.lines:
        answer("\n".join(outcome.lines))
    tell(outcome.summary, options.quiet)
    return 0


def _told_unused(options: argparse.Namespace) -> dict[str, Any]:
    """Tells the manifests that the job does not use, if asked; gives them for the JSON document."""
    if options.unused is None:
        return {}
    from layout.jobs.unused import unused_manifests

    names = unused_manifests(options.job, options.puzzles, options.unused)
    for name in names:
        tell(f"{name}: no line of {options.job} uses it", options.quiet)
    return {"unused": names}


def _no_grades(puzzles: Path) -> None:
    """That no grades are kept."""


def _refuse(refused: "MayNotBePrinted", options: argparse.Namespace) -> int:
    """Names every puzzle that stands in the way."""
    if options.json:
        puzzles = list(refused.facts)
        answer_json({**_head(options), "written": [], "pages": 0, "puzzles": puzzles})
    for line in refused.lines:
        complain(line)
    complain(f"reglet: {options.job}: nothing is written before these are mended")
    return 1


def _head(options: argparse.Namespace) -> dict[str, Any]:
    from verify import __version__

    return {"reglet": __version__, "job": options.job.as_posix()}


def _document(outcome: "Outcome", options: argparse.Namespace) -> dict[str, Any]:
    """The JSON document of a job that was made."""
    return {
        **_head(options),
        "written": [path.as_posix() for path in outcome.written],
        **outcome.facts,
    }


def _errors(unreadable: "Unreadable") -> list[dict[str, Any]]:
    return [
        {
            "file": problem.place.file,
            "line": problem.place.line,
            "column": problem.place.column,
            "message": problem.message,
        }
        for problem in unreadable.problems
    ]
