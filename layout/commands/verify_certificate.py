"""`reglet verify-certificate DIR`: whether certificates hold, by a checker that trusts nothing."""

import argparse
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from layout.commands.seconds import add_seconds
from layout.console import answer, answer_json, counted, progress, tell

if TYPE_CHECKING:
    from verify.certificate.verifying import Manifest, Result


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument(
        "paths", nargs="+", type=Path, metavar="PATH", help="folder, or a file of a certificate"
    )
    parser.add_argument(
        "--puzzle",
        nargs="+",
        type=Path,
        action="extend",
        default=[],
        metavar="MANIFEST",
        help="files or folders of puzzles; each certificate must be of one, and each must have one",
    )
    add_seconds(parser, "each certificate")


def run(options: argparse.Namespace) -> int:
    """Says of each certificate what it is; 1 where one is refused, 2 where one can't be read.

    Raises Unreadable where a path is none, or a puzzle can't be read.
    """
    from verify.certificate.verifying import find_certificates

    stems = find_certificates(options.paths)
    manifests = _manifests(options.puzzle)
    results = [*_results(stems, manifests, options)]
    if manifests:
        results += _missing(manifests, {stem.name for stem in stems})
    if options.json:
        answer_json(_document(results))
    else:
        for result in results:
            answer(_line(result))
    counts = Counter(result.word for result in results)
    words = ", ".join(f"{count} {word}" for word, count in sorted(counts.items()))
    tell(f"{counted(len(results), 'certificate')}: {words}", options.quiet)
    if counts["unreadable"]:
        return 2
    return 0 if counts["accepted"] == len(results) else 1


def _manifests(paths: Sequence[Path]) -> Mapping[str, "Manifest"]:
    """The puzzles that certificates are held against, by id. Raises Unreadable."""
    from verify.certificate.verifying import Manifest
    from verify.check import items_of, puzzle_of_item
    from verify.manifest.find import find_puzzles
    from verify.reading.problems import Problem, Unreadable

    found: dict[str, Manifest] = {}
    for file in find_puzzles(paths):
        for item in items_of([file]):
            puzzle = puzzle_of_item(item)
            first = found.setdefault(puzzle.id, Manifest(puzzle, file.path)).puzzle
            if first is not puzzle:
                message = f'the id "{puzzle.id}" is that of {first.source} already'
                raise Unreadable([Problem(puzzle.place_of("id"), message)])
    return found


def _results(
    stems: Sequence[Path], manifests: Mapping[str, "Manifest"], options: argparse.Namespace
) -> Iterator["Result"]:
    from verify.certificate.verifying import Item, verify_all

    items = [Item(stem, manifests.get(stem.name), bool(manifests)) for stem in stems]
    with progress("checking", len(items), options.quiet) as done:
        yield from verify_all(items, options.seconds, options.jobs, done)


def _missing(manifests: Mapping[str, "Manifest"], names: set[str]) -> Iterator["Result"]:
    """What is told of puzzles that have no certificate."""
    from verify.certificate.verifying import Result
    from verify.reading.node import Place
    from verify.reading.problems import Problem

    for name, manifest in manifests.items():
        if name not in names:
            puzzle = manifest.puzzle
            problem = Problem(Place(puzzle.file, puzzle.line or 1, 1), f"{name} has no certificate")
            yield Result(name, "missing", problem)


def _line(result: "Result") -> str:
    if result.problem is not None:
        place, message = result.problem.place, result.problem.message
        return f"{place.file}:{place.line}: {result.word}: {message}"
    proof = f"the proof holds, {counted(result.lemmas, 'step')}"
    which = "the manifest's own" if result.bound else "no manifest was asked, see --puzzle"
    return f"{result.name}: accepted: {proof}; formula: {which}"


def _document(results: Sequence["Result"]) -> dict[str, Any]:
    """The JSON document of all results."""
    from verify import __version__

    return {"reglet": __version__, "certificates": [_facts(result) for result in results]}


def _facts(result: "Result") -> dict[str, Any]:
    facts: dict[str, Any] = {"certificate": result.name, "verdict": result.word}
    if result.problem is None:
        return {**facts, "bound": result.bound, "steps": result.lemmas}
    place = result.problem.place
    return {**facts, "file": place.file, "line": place.line, "message": result.problem.message}
