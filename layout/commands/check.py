"""`reglet check`: verdicts for manifests, folders and banks."""

import argparse
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from layout.commands.seconds import add_seconds, budget_of
from layout.console import answer, answer_json, first_of, progress, tell

if TYPE_CHECKING:
    from verify.check import Finding
    from verify.manifest.find import Found
    from verify.named_parts import NamedPart

MOST_CELLS_NAMED: Final = 12


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("paths", nargs="+", type=Path, metavar="PATH", help="file or folder")
    parser.add_argument(
        "--conflicts", type=_positive, metavar="N", help="solver conflicts to spend on a puzzle"
    )
    add_seconds(parser, "each puzzle: its reading, its proof and its grade")


def _positive(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 10**9:
        raise argparse.ArgumentTypeError(f"found {text!r}, expected a whole number from 1")
    return int(text)


def run(options: argparse.Namespace) -> int:
    """Prints a verdict for each puzzle; 1 where one may not be printed, 2 where one can't be read.

    Raises Unreadable where a path is none.
    """
    from verify.manifest.find import find_puzzles

    found = find_puzzles(options.paths)
    findings = list(_findings(found, options))
    if options.json:
        answer_json(document(findings))
    else:
        for finding in findings:
            answer("\n".join(_lines(finding)))
    counted = Counter(finding.verdict for finding in findings)
    words = ", ".join(f"{count} {word}" for word, count in sorted(counted.items()))
    tell(f"{len(findings)} checked: {words}", options.quiet)
    return exit_code(findings)


def _findings(found: Sequence["Found"], options: argparse.Namespace) -> Iterator["Finding"]:
    from verify.check import check, items_of

    budget = budget_of(options, options.conflicts)
    items = list(items_of(found))
    with progress("checking", len(items), options.quiet) as done:
        yield from check(items, budget, options.jobs, done)


def exit_code(findings: Sequence["Finding"]) -> int:
    """0: all may be printed; 1: some may not; 2: some could not be read."""
    if any(finding.verdict == "unreadable" for finding in findings):
        return 2
    return 0 if all(finding.printable for finding in findings) else 1


def _lines(finding: "Finding") -> Iterator[str]:
    """A finding for a reader at the terminal."""
    if finding.verdict == "unreadable":
        yield from map(str, finding.problems)
        return
    more = ""
    if finding.differs:
        more = f" answers, which differ in {first_of(finding.differs, MOST_CELLS_NAMED)}"
    elif finding.contradicts:
        cells = first_of(finding.contradicts, MOST_CELLS_NAMED)
        more = f" answer, but the manifest's own is another in {cells}"
    elif finding.grade:
        more = f", {finding.grade.band.value}" + (" in this time" if finding.cut_short else "")
    elif finding.verdict == "none":
        more = _why_none(finding)
    yield f"{finding.place or finding.file}: {finding.id}: {finding.verdict}{more}"
    yield from map(str, finding.problems)


def _why_none(finding: "Finding") -> str:
    """What can't stand together, behind the verdict."""
    if finding.conflict is None:
        return "; undecided in this time why"
    if not finding.conflict:
        return "; the grid itself has no answer"
    parts = list(map(str, finding.conflict))
    if len(parts) == 1:
        return f"; nothing fits {parts[0]}"
    more = "" if finding.conflict_smallest else " (undecided in this time whether fewer could)"
    return f"; these can't stand together: {', '.join(parts)}{more}"


def document(findings: Sequence["Finding"]) -> dict[str, Any]:
    """The JSON document of all findings."""
    from verify import __version__

    return {"reglet": __version__, "puzzles": [_facts(finding) for finding in findings]}


def _facts(finding: "Finding") -> dict[str, Any]:
    facts: dict[str, Any] = {"file": finding.file}
    if finding.verdict == "unreadable":
        return {**facts, "verdict": "unreadable", "errors": _errors(finding)}
    if finding.place:
        facts |= {"line": finding.place.line, "column": finding.place.column}
    facts |= {"id": finding.id, "title": finding.title, "verdict": finding.verdict}
    if finding.verdict == "one":
        facts["answer"] = finding.answers[0]
    if finding.verdict == "many":
        facts |= {"answers": list(finding.answers), "differs": list(finding.differs)}
    if finding.conflict is not None:
        facts["conflict"] = list(map(_part_facts, finding.conflict))
        facts["conflict_smallest"] = finding.conflict_smallest
    if finding.contradicts:
        facts["contradicts"] = list(finding.contradicts)
    if finding.problems:
        facts["errors"] = _errors(finding)
    facts["seconds"] = round(finding.seconds, 6)
    if finding.grade:
        facts["grade"] = {"band": finding.grade.band.value, "score": finding.grade.score}
    return facts


def _part_facts(part: "NamedPart") -> dict[str, Any]:
    """A given or a mark, as the manifest names it."""
    if part.cell:
        return {"cell": part.cell, "digit": part.digit, "line": part.line}
    return {"rule": part.rule, "at": part.at, "line": part.line}


def _errors(finding: "Finding") -> list[dict[str, Any]]:
    return [
        {"line": problem.place.line, "column": problem.place.column, "message": problem.message}
        for problem in finding.problems
    ]
