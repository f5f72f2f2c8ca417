"""`reglet check`: verdicts for manifests, folders and banks."""

import argparse
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from layout.commands.seconds import add_seconds, budget_of
from layout.console import answer, answer_json, complain, counted, first_of, progress, tell

if TYPE_CHECKING:
    from layout.output.certificates import CertificateFolder
    from layout.output.write import OutputFile
    from verify.check import Finding
    from verify.manifest.find import Found
    from verify.minimal import First

MOST_CELLS_NAMED: Final = 12
USUAL_COUNT: Final = 10
MOST_COUNT: Final = 100_000


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("paths", nargs="+", type=Path, metavar="PATH", help="file or folder")
    parser.add_argument(
        "--conflicts", type=_positive, metavar="N", help="solver conflicts to spend on a puzzle"
    )
    parser.add_argument(
        "--count",
        type=_count,
        default=USUAL_COUNT,
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
    add_seconds(parser, "each puzzle: its reading, its proof, its grade and all reasons")


def _positive(text: str) -> int:
    return _whole(text, 1, 10**9)


def _count(text: str) -> int:
    return _whole(text, 2, MOST_COUNT)


def _whole(text: str, least: int, most: int) -> int:
    if not text.isdecimal() or not least <= int(text[:12]) <= most:
        expected = f"a whole number from {least} to {most}"
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {expected}")
    return int(text)


def run(options: argparse.Namespace) -> int:
    """Prints a verdict for each puzzle; 1 where one may not be printed, 2 where one can't be read.

    With --certificate also 1 where a certificate can't be made. Raises Unreadable where a path is
    none, or two puzzles would have the same certificate.
    """
    from verify.manifest.find import find_puzzles

    found = find_puzzles(options.paths)
    if (fault := _misused(options, found)) is not None:
        complain(f"reglet check: {fault}")
        return 2
    findings: list[Finding] = []
    written: list[Path] = []
    if options.certificate is None:
        findings += _findings(found, options)
    else:
        written = _certify(found, findings, options)
    if options.minimal is not None:
        written += _write_minimal(findings[0], options)
    if options.json:
        asked = options.certificate is not None or options.minimal is not None
        more = {"written": [path.as_posix() for path in written]} if asked else {}
        answer_json({**document(findings), **more})
    else:
        for finding in findings:
            answer("\n".join(_lines(finding)))
    counted_words = Counter(finding.verdict for finding in findings)
    words = ", ".join(f"{count} {word}" for word, count in sorted(counted_words.items()))
    tell(f"{len(findings)} checked: {words}", options.quiet)
    return max(exit_code(findings), _told_certificates(findings, written, options))


def _misused(options: argparse.Namespace, found: Sequence["Found"]) -> str | None:
    """What is wrong with the options together; None where they fit."""
    from layout.output.files import refuse_inputs

    if options.minimal is None:
        return "argument --first: goes with --minimal" if options.first else None
    if len(found) != 1 or found[0].is_bank:
        return "argument --minimal: expected a single manifest"
    refuse_inputs(options.minimal, [found[0].path])
    return None


def _write_minimal(finding: "Finding", options: argparse.Namespace) -> list[Path]:
    """Writes the minimal puzzle, where there is one."""
    from layout.output.write import write_whole

    if finding.minimal is None:
        complain(f"{finding.file}: no minimal puzzle: {options.minimal} is not written")
        return []
    write_whole(options.minimal, finding.minimal.text.encode("utf-8"))
    tell(f"{options.minimal}: written", options.quiet)
    return [options.minimal]


def _certify(
    found: Sequence["Found"], findings: list["Finding"], options: argparse.Namespace
) -> list[Path]:
    """Writes the certificates, all of them or none, and notes the findings without them."""
    from layout.output.certificates import CertificateFolder
    from layout.output.write import outputs_in

    folder = CertificateFolder(options.certificate, [each.path for each in found if each.is_bank])
    with outputs_in([folder.path], "check", partial(tell, quiet=options.quiet)) as outputs:
        return outputs.write_all(_certificates(_findings(found, options), folder, findings))


def _certificates(
    fresh: Iterator["Finding"], folder: "CertificateFolder", findings: list["Finding"]
) -> Iterator["OutputFile"]:
    """The files of each certificate as it comes: their bytes are not kept."""
    from verify.reading.node import Place

    for finding in fresh:
        if finding.certificate is not None:
            place = finding.place or Place(finding.file, 1, 1)
            yield from folder.files(finding.certificate, place)
        findings.append(replace(finding, certificate=None))


def _told_certificates(
    findings: Sequence["Finding"], written: Sequence[Path], options: argparse.Namespace
) -> int:
    """Says how many certificates there are; 1 where a puzzle with one answer has none."""
    if options.certificate is None:
        return 0
    names = {path.stem for path in written}
    without = [each.id for each in findings if each.verdict == "one" and each.id not in names]
    tell(f"{options.certificate}: {counted(len(names), 'certificate')}", options.quiet)
    if without:
        named = first_of(without, MOST_CELLS_NAMED)
        complain(f"reglet: no certificate in this time and room, which --seconds extends: {named}")
    return 1 if without else 0


def _findings(found: Sequence["Found"], options: argparse.Namespace) -> Iterator["Finding"]:
    from verify.check import check, items_of
    from verify.reasons import Wanted

    budget = budget_of(options, options.conflicts)
    items, certified = list(items_of(found)), options.certificate is not None
    with progress("checking", len(items), options.quiet) as done:
        first: First | None = None
        if options.minimal is not None:
            first = options.first or "givens"
        wanted = Wanted(options.count, options.spare, first)
        yield from check(items, budget, options.jobs, done, wanted, certified=certified)


def exit_code(findings: Sequence["Finding"]) -> int:
    """0: all may be printed; 1: some may not; 2: some could not be read."""
    if any(finding.verdict == "unreadable" for finding in findings):
        return 2
    return 0 if all(finding.printable for finding in findings) else 1


def _lines(finding: "Finding") -> Iterator[str]:
    """A finding for a reader at the terminal."""
    from layout.commands.told_reasons import many_lines, minimal_lines, spare_lines

    if finding.verdict == "unreadable":
        yield from map(str, finding.problems)
        return
    yield f"{finding.place or finding.file}: {finding.id}: {finding.verdict}{_more(finding)}"
    if finding.why_many:
        yield from (f"  {line}" for line in many_lines(finding.why_many))
    if finding.spared:
        yield from (f"  {line}" for line in spare_lines(finding.spared))
    if finding.minimal:
        yield from (f"  {line}" for line in minimal_lines(finding.minimal))
    yield from map(str, finding.problems)


def _more(finding: "Finding") -> str:
    """What stands behind the verdict."""
    from layout.commands.told_reasons import none_words

    if finding.differs:
        cells = first_of(finding.differs, MOST_CELLS_NAMED)
        rest = "" if finding.differs_all else "; undecided in this time whether in others"
        return f" answers, which differ in {cells}{rest}"
    if finding.contradicts:
        cells = first_of(finding.contradicts, MOST_CELLS_NAMED)
        return f" answer, but the manifest's own is another in {cells}"
    if finding.verdict == "none":
        return none_words(finding.why_none)
    if finding.grade:
        cut_short = " in this time" if finding.cut_short else ""
        return f", {finding.grade.band.value}{cut_short}"
    return ""


def document(findings: Sequence["Finding"]) -> dict[str, Any]:
    """The JSON document of all findings."""
    from verify import __version__

    return {"reglet": __version__, "puzzles": [_facts(finding) for finding in findings]}


def _facts(finding: "Finding") -> dict[str, Any]:
    from layout.commands.told_reasons import (
        many_facts,
        minimal_facts,
        none_facts,
        spare_facts,
    )

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
        facts["differs_all"] = finding.differs_all
    if finding.why_none:
        facts |= none_facts(finding.why_none)
    if finding.why_many:
        facts |= many_facts(finding.why_many)
    if finding.spared:
        facts |= spare_facts(finding.spared)
    if finding.minimal:
        facts |= minimal_facts(finding.minimal)
    if finding.contradicts:
        facts["contradicts"] = list(finding.contradicts)
    if finding.problems:
        facts["errors"] = _errors(finding)
    facts["seconds"] = round(finding.seconds, 6)
    if finding.grade:
        facts["grade"] = {"band": finding.grade.band.value, "score": finding.grade.score}
    return facts


def _errors(finding: "Finding") -> list[dict[str, Any]]:
    return [
        {"line": problem.place.line, "column": problem.place.column, "message": problem.message}
        for problem in finding.problems
    ]
