"""`reglet check`: verdicts for manifests, folders and banks."""

import argparse
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from importlib.util import find_spec
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Final

from layout.commands.check_tally import Tally
from layout.commands.seconds import add_seconds, budget_of
from layout.console import answer, answer_json, answer_json_list, complain, progress, tell

if TYPE_CHECKING:
    from layout.commands.check_same import FormsSeen
    from verify.check import Asked, Finding
    from verify.manifest.find import Found
    from verify.minimal import First
    from verify.reasons import Wanted

OUT_ENDINGS: Final = (".jsonl", ".csv")
USUAL_COUNT: Final = 10
MOST_COUNT: Final = 100_000


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
        "--scheduler",
        metavar="ADDRESS",
        default="",
        help="work on the Dask cluster there, such as tcp://10.0.0.7:8786 (reglet[cluster])",
    )
    parser.add_argument(
        "--conflicts", type=_positive, metavar="N", help="solver conflicts to spend on a puzzle"
    )
    parser.add_argument(
        "--count",
        type=_count,
        metavar="N",
        help=f"where there are many answers, count them up to N (default: {USUAL_COUNT})",
    )
    parser.add_argument(
        "--spare",
        action="store_true",
        help="where there is one answer, also the givens, marks and parts of marks that could each"
        " be left out",
    )
    parser.add_argument(
        "--minimal",
        type=Path,
        metavar="FILE",
        help="of one manifest, write a puzzle of which nothing more could be left out",
    )
    parser.add_argument(
        "--first",
        choices=("givens", "marks"),
        help="what --minimal leaves out first (default: givens)",
    )
    parser.add_argument(
        "--certificate",
        type=Path,
        metavar="DIR",
        help="write why each answer is the only one, for other programs to check",
    )
    add_seconds(parser, "each puzzle: its reading, its proof and all that is asked of it")


def _positive(text: str) -> int:
    return _whole(text, 1, 10**9)


def _count(text: str) -> int:
    return _whole(text, 2, MOST_COUNT)


def _whole(text: str, least: int, most: int) -> int:
    if not text.isdecimal() or not least <= int(text[:12]) <= most:
        expected = f"a whole number from {least} to {most}"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}")
    return int(text)


def _out(text: str) -> Path:
    if Path(text).suffix not in OUT_ENDINGS:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected FILE.jsonl or FILE.csv")
    return Path(text)


def run(options: argparse.Namespace) -> int:
    """Prints a verdict for each puzzle; 1 where one may not be printed, 2 where one can't be read.

    With --certificate also 1 where a certificate can't be made. Raises Unreadable where a path is
    none, or two puzzles would have the same certificate; OutputError where results can't be
    written.
    """
    from verify.manifest.find import find_puzzles

    found = find_puzzles(options.paths)
    if refusal := _refusal(options, found):
        complain(f"reglet check: {refusal}")
        return 2
    others = find_puzzles([options.same]) if isinstance(options.same, Path) else []
    this = _Run(options, found, others, _asked(options), _seen(options, others))
    from verify.cluster import NoCluster

    try:
        code = _done(this)
    except NoCluster as error:
        complain(f"reglet: {error}")
        return 2
    tell(this.tally.words, options.quiet)
    return max(code, this.tally.exit_code)


def _done(this: "_Run") -> int:
    """Checks, and tells or writes what is asked; 1 where a certificate is missing."""
    if this.options.out:
        _write(this)
    elif this.options.certificate or this.options.minimal:
        return _with_files(this)
    else:
        _tell(this)
    return 0


def _refusal(options: argparse.Namespace, found: Sequence["Found"]) -> str:
    """Why the options can't go together, if so: a line of results has no room for some things."""
    given = {
        "--count": options.count is not None,
        "--spare": options.spare,
        "--minimal": options.minimal is not None,
        "--certificate": options.certificate is not None,
    }
    named = [name for name, is_given in given.items() if is_given]
    if options.out and named:
        return f"argument --out: results hold verdicts and no reasons; leave {named[0]} out"
    if options.first and not options.minimal:
        return "argument --first: goes with --minimal"
    if options.scheduler and find_spec("distributed") is None:
        return "argument --scheduler: Dask is not installed; it comes with reglet[cluster]"
    if options.scheduler and (options.certificate or options.minimal):
        return "argument --scheduler: only this machine writes certificates and minimal puzzles"
    if options.minimal and (len(found) != 1 or found[0].is_bank):
        return "argument --minimal: expected a single manifest"
    return ""


@dataclass(frozen=True, slots=True)
class _Run:
    """What is checked, what is asked of it, and the count of what came of it."""

    options: argparse.Namespace
    found: Sequence["Found"]
    others: Sequence["Found"]
    asked: "Asked"
    seen: "FormsSeen | None"
    tally: Tally = field(default_factory=Tally)

    def told(self) -> Iterator[tuple["Finding", str]]:
        """Each finding that was not counted yet, and which puzzle it is in disguise."""
        start = self.tally.total
        for finding in _findings(self.options, self.found, self.asked, "checking", start):
            same = self.seen.same_as(finding) if self.seen else ""
            self.tally.add(finding.verdict, finding.printable, bool(same))
            yield finding, same


def _asked(options: argparse.Namespace) -> "Asked":
    from verify.check import Asked

    keeper = None
    if options.grade and not options.no_cache and not options.scheduler:
        from layout.output.grades import grades_beside

        keeper = grades_beside(options.paths[0], options.quiet)
    return Asked(
        graded=options.grade,
        formed=options.same is not None,
        certified=options.certificate is not None,
        wanted=None if options.out else _wanted(options),
        keeper=keeper,
    )


def _wanted(options: argparse.Namespace) -> "Wanted":
    from verify.reasons import Wanted

    first: First | None = (options.first or "givens") if options.minimal else None
    return Wanted(options.count or USUAL_COUNT, options.spare, first)


def _findings(
    options: argparse.Namespace,
    found: Sequence["Found"],
    asked: "Asked",
    label: str,
    start: int = 0,
) -> Iterator["Finding"]:
    """The findings from the item `start` on."""
    from verify.check import check, count_of, items_of

    budget = budget_of(options, options.conflicts)
    items = islice(items_of(found), start, None) if start else items_of(found)
    total = 0 if options.quiet else count_of(found)
    with progress(label, total, options.quiet, start) as done:
        yield from check(
            items,
            budget,
            options.jobs,
            lambda count: done(start + count),
            asked,
            options.scheduler,
        )


def _seen(options: argparse.Namespace, others: Sequence["Found"]) -> "FormsSeen | None":
    """Where forms are looked up, with those of the other bank in it; None if nobody asks."""
    if options.same is None:
        return None
    from layout.commands.check_same import FormsSeen
    from verify.check import Asked

    seen, tally = FormsSeen(), Tally()
    if others:
        formed = Asked(formed=True, wanted=None)
        for finding in _findings(options, others, formed, "reading the other bank"):
            seen.same_as(finding)
            tally.add(finding.verdict, finding.printable, same=False)
        tell(f"the other bank: {tally.words}", options.quiet)
    return seen


def _tell(this: _Run) -> None:
    """Tells each finding as it comes."""
    if this.options.json:
        from layout.commands.check_facts import facts
        from verify import __version__

        told = (facts(finding, same) for finding, same in this.told())
        answer_json_list({"reglet": __version__}, "puzzles", told)
        return
    from layout.commands.check_words import lines

    for finding, same in this.told():
        answer("\n".join(lines(finding, same)))


def _with_files(this: _Run) -> int:
    """Writes certificates, all of them or none, and a minimal puzzle; then tells the findings.

    1 where a puzzle with one answer has no certificate, if they are asked for.
    """
    from layout.commands.check_certificates import tell_missing, write_certificates
    from layout.commands.check_minimal import write_minimal
    from layout.output.files import refuse_inputs

    options, written = this.options, list[Path]()
    kept: list[tuple[Finding, str]] = []
    if options.minimal:
        refuse_inputs(options.minimal, [each.path for each in this.found])

    def fresh() -> Iterator["Finding"]:
        for finding, same in this.told():
            yield finding
            kept.append((replace(finding, certificate=None), same))

    if options.certificate:
        written += write_certificates(options, this.found, fresh())
    else:
        kept += this.told()
    if options.minimal:
        written += write_minimal(options.minimal, kept[0][0], options.quiet)
    _tell_kept(kept, written, as_json=options.json)
    if not options.certificate:
        return 0
    return tell_missing(options, [finding for finding, _ in kept], written)


def _tell_kept(
    kept: Sequence[tuple["Finding", str]], written: Sequence[Path], *, as_json: bool
) -> None:
    """Tells findings when all that is written beside them stands."""
    if as_json:
        from layout.commands.check_facts import facts
        from verify import __version__

        puzzles = [facts(finding, same) for finding, same in kept]
        paths = [path.as_posix() for path in written]
        answer_json({"reglet": __version__, "puzzles": puzzles, "written": paths})
        return
    from layout.commands.check_words import lines

    for finding, same in kept:
        answer("\n".join(lines(finding, same)))


def _write(this: _Run) -> None:
    """Writes the results to a file, from where an earlier run was stopped."""
    from layout.commands.check_records import format_of, run_of
    from layout.output.files import refuse_inputs
    from layout.output.results import PART, Record, results_at

    options, seen, tally = this.options, this.seen, this.tally
    refuse_inputs(options.out, (each.path for each in [*this.found, *this.others]))
    lines = format_of(options.out.suffix)

    def note(record: Record) -> None:
        if seen and record.get("form"):
            seen.note(str(record["form"]), lines.label(record))
        printable = record["verdict"] == "one" and not record.get("contradicts")
        tally.add(record["verdict"], printable, bool(record.get("same")))

    run = run_of(options, this.found, this.others)
    try:
        with results_at(options.out, run, lines.head, lines.read, note) as results:
            if tally.total:
                tell(f"{tally.total} were done before; this run goes on from there", options.quiet)
            for finding, same in this.told():
                results.add(lines.line(finding, same))
    except KeyboardInterrupt:
        tell(f"{options.out}{PART} keeps what is done; the same command goes on", options.quiet)
        raise
    if options.json:
        answer_json(tally.document | {"out": options.out.as_posix()})
