"""`reglet preflight FILE.pdf`: what a press, a binder or a reader would refuse.

With `--against JOB` every printed digit is read back and held against the job.
"""

import argparse
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from layout.commands.seconds import add_seconds, budget_of
from layout.console import answer, answer_json, complain, counted, progress, tell

if TYPE_CHECKING:
    from layout.preflight.checks.finding import Finding
    from layout.preflight.reading.finished import FinishedFile


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("file", type=Path, metavar="FILE.pdf", help="a finished file")
    parser.add_argument(
        "--large-print", action="store_true", help="letters must have 18 points or more"
    )
    parser.add_argument(
        "--kind",
        choices=("pages", "cover", "sheets", "leaves", "picture"),
        help="what the file is (default: what it looks like); leaves: a worksheet's",
    )
    parser.add_argument(
        "--against",
        type=Path,
        metavar="JOB",
        help="a book's job: its puzzles are proved anew, and all that is printed is held to them",
    )
    parser.add_argument(
        "--puzzles",
        type=Path,
        metavar="ROOT",
        help="the folder that the job's puzzles lie in (default: the job's own)",
    )
    add_seconds(parser, "the proof of each puzzle of the job")


def run(options: argparse.Namespace) -> int:
    """Prints a report; 1 where something was found, or a puzzle has not one answer.

    Raises Unreadable for what is no PDF, and for a job or a puzzle that can't be used.
    """
    from layout.jobs.common.proving import MayNotBePrinted
    from layout.preflight.checks.inks import spot_inks
    from layout.preflight.kinds import kind_of
    from layout.preflight.report import document, finding_lines, table
    from verify import __version__

    with_job = options.against is not None
    file = _read(options.file)
    kind = options.kind or kind_of(file)
    try:
        findings = _findings(file, options)
    except MayNotBePrinted as refused:
        if options.json:
            head = {"reglet": __version__, "file": file.name}
            answer_json({**head, "puzzles": list(refused.facts), "findings": []})
        for line in refused.lines:
            complain(line)
        return 1
    if options.json:
        answer_json({"reglet": __version__, **document(file, kind, findings, with_job)})
    else:
        lines = [*finding_lines(file, findings), *table(kind, findings, with_job)]
        answer("\n".join(lines))
    pages = counted(len(file.leaves), "page")
    spots = spot_inks(file)
    inks = [f"black and {spots[0]}"] if spots else []
    one = "a " if kind in ("cover", "picture") else ""
    read_as = [] if kind == "pages" else [f"read as {one}{kind}"]
    told = [*read_as, pages, *inks, counted(len(findings), "finding")]
    tell(f"{file.name}: {', '.join(told)}", options.quiet)
    return 1 if findings else 0


def _read(path: Path) -> "FinishedFile":
    """The file as facts. Raises Unreadable for what is no PDF."""
    from layout.preflight.reading.opening import Unusable, read_finished
    from verify.manifest.source import shown_path
    from verify.reading.node import Place
    from verify.reading.problems import Problem, Unreadable

    name = shown_path(path)
    try:
        return read_finished(path, name)
    except Unusable as unusable:
        raise Unreadable([Problem(Place(name, 1, 1), str(unusable))]) from None


def _findings(file: "FinishedFile", options: argparse.Namespace) -> "list[Finding]":
    """What is found in a file. Raises MayNotBePrinted, and Unreadable for a job."""
    from layout.jobs.common.making import Making
    from layout.jobs.held_against import held_against
    from layout.preflight.preflight import Terms, preflight

    if options.against is None:
        return list(preflight(file, Terms(options.large_print, kind=options.kind)))
    bars = partial(progress, quiet=options.quiet)
    making = Making(options.puzzles, options.jobs, bars, budget=budget_of(options))
    return held_against(
        file, options.against, making, Terms(options.large_print, kind=options.kind)
    )
