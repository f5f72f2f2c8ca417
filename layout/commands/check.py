"""`reglet check`: verdicts for manifests, folders and banks."""

import argparse
from collections.abc import Iterator, Sequence
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Final

from layout.commands.check_tally import Tally
from layout.commands.seconds import add_seconds, budget_of
from layout.console import answer, answer_json, answer_json_list, progress, tell

if TYPE_CHECKING:
    from layout.commands.check_same import FormsSeen
    from verify.check import Asked, Finding
    from verify.manifest.find import Found

OUT_ENDINGS: Final = (".jsonl", ".csv")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("paths", nargs="+", type=Path, metavar="PATH", help="file or folder")
    parser.add_argument("--grade", action="store_true", help="also how hard each puzzle is")
    parser.add_argument(
        "--no-cache", action="store_true", help="neither look up grades of before nor keep any"
    )
    parser.add_argument(
        "--same",
        nargs="?",
        type=Path,
        const=True,
        metavar="OTHER_BANK",
        help="tell puzzles that are others in disguise, among these or in another bank",
    )
    parser.add_argument(
        "--out",
        type=_out,
        metavar="FILE.jsonl|FILE.csv",
        help="write results there line by line; a run that was stopped goes on where it was",
    )
    parser.add_argument(
        "--conflicts", type=_positive, metavar="N", help="solver conflicts to spend on a puzzle"
    )
    add_seconds(parser, "each puzzle: its reading, its proof and, if asked for, its grade")


def _positive(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 10**9:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a whole number from 1")
    return int(text)


def _out(text: str) -> Path:
    if Path(text).suffix not in OUT_ENDINGS:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected FILE.jsonl or FILE.csv")
    return Path(text)


def run(options: argparse.Namespace) -> int:
    """Prints a verdict for each puzzle; 1 where one may not be printed, 2 where one can't be read.

    Raises Unreadable where a path is none, OutputError where results can't be written.
    """
    from verify.manifest.find import find_puzzles

    found = find_puzzles(options.paths)
    others = find_puzzles([options.same]) if isinstance(options.same, Path) else []
    asked = _asked(options)
    seen = _seen(options, others)
    tally = Tally()
    if options.out:
        _write(options, found, others, asked, seen, tally)
    elif options.json:
        from layout.commands.check_facts import facts
        from verify import __version__

        told = (facts(finding, same) for finding, same in _told(options, found, asked, seen, tally))
        answer_json_list({"reglet": __version__}, "puzzles", told)
    else:
        from layout.commands.check_words import lines

        for finding, same in _told(options, found, asked, seen, tally):
            answer("\n".join(lines(finding, same)))
    tell(tally.words, options.quiet)
    return tally.exit_code


def _asked(options: argparse.Namespace) -> "Asked":
    from verify.check import Asked

    keeper = None
    if options.grade and not options.no_cache:
        from layout.output.grades import grades_beside

        keeper = grades_beside(options.paths[0], options.quiet)
    return Asked(options.grade, options.same is not None, keeper)


def _told(
    options: argparse.Namespace,
    found: Sequence["Found"],
    asked: "Asked",
    seen: "FormsSeen | None",
    tally: Tally,
    start: int = 0,
) -> Iterator[tuple["Finding", str]]:
    """Each finding from the item `start` on, counted, and which puzzle it is in disguise."""
    for finding in _findings(options, found, asked, "checking", start):
        same = seen.same_as(finding) if seen else ""
        tally.add(finding.verdict, finding.printable, bool(same))
        yield finding, same


def _findings(
    options: argparse.Namespace,
    found: Sequence["Found"],
    asked: "Asked",
    label: str,
    start: int = 0,
) -> Iterator["Finding"]:
    from verify.check import check, count_of, items_of

    budget = budget_of(options, options.conflicts)
    items = islice(items_of(found), start, None) if start else items_of(found)
    total = 0 if options.quiet else count_of(found)
    with progress(label, total, options.quiet, start) as done:
        yield from check(items, budget, options.jobs, lambda count: done(start + count), asked)


def _seen(options: argparse.Namespace, others: Sequence["Found"]) -> "FormsSeen | None":
    """Where forms are looked up, with those of the other bank in it; None if nobody asks."""
    if options.same is None:
        return None
    from layout.commands.check_same import FormsSeen
    from verify.check import Asked

    seen, tally = FormsSeen(), Tally()
    if others:
        for finding in _findings(options, others, Asked(formed=True), "reading the other bank"):
            seen.same_as(finding)
            tally.add(finding.verdict, finding.printable, False)
        tell(f"the other bank: {tally.words}", options.quiet)
    return seen


def _write(
    options: argparse.Namespace,
    found: Sequence["Found"],
    others: Sequence["Found"],
    asked: "Asked",
    seen: "FormsSeen | None",
    tally: Tally,
) -> None:
    """Writes the results to a file, from where an earlier run was stopped."""
    from layout.commands.check_records import format_of, run_of
    from layout.output.files import refuse_inputs
    from layout.output.results import PART, Record, results_at

    refuse_inputs(options.out, (each.path for each in [*found, *others]))
    lines = format_of(options.out.suffix)

    def note(record: Record) -> None:
        if seen and record.get("form"):
            seen.note(str(record["form"]), lines.label(record))
        printable = record["verdict"] == "one" and not record.get("contradicts")
        tally.add(record["verdict"], printable, bool(record.get("same")))

    run = run_of(options, found, others)
    try:
        with results_at(options.out, run, lines.head, lines.read, note) as results:
            if tally.total:
                tell(f"{tally.total} were done before; this run goes on from there", options.quiet)
            for finding, same in _told(options, found, asked, seen, tally, tally.total):
                results.add(lines.line(finding, same))
    except KeyboardInterrupt:
        tell(f"{options.out}{PART} keeps what is done; the same command goes on", options.quiet)
        raise
    if options.json:
        answer_json(tally.document | {"out": options.out.as_posix()})
