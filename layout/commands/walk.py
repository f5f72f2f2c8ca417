"""`reglet walk PUZZLE.yaml`: the solve path in words."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from layout.console import answer, answer_json, tell

if TYPE_CHECKING:
    from layout.telling.telling import Telling, Told
    from verify.puzzle import Puzzle
    from verify.symmetry import Symmetry
    from verify.walk.report import BreakIn, Report, Tightest
    from verify.walk.step import Step
    from verify.walk.walk import Walk

USUAL_LANGUAGE: Final = "en"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("puzzle", type=Path, metavar="PUZZLE", help="a manifest")
    parser.add_argument(
        "--language", type=_language, default=USUAL_LANGUAGE, metavar="CODE", help="such as de"
    )
    parser.add_argument(
        "--report", action="store_true", help="break-in, tightest point, what is not needed"
    )


def _language(text: str) -> str:
    from layout.type.words import languages

    if text not in languages():
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {' or '.join(languages())}")
    return text


def run(options: argparse.Namespace) -> int:
    """Prints the walk, or the report on it; 1 where known techniques do not lead to its end.

    Raises Unreadable where the manifest can't be read.
    """
    from layout.telling.report import tell_report
    from layout.telling.telling import tell_walk
    from layout.type.words import read_words
    from verify.manifest.read import read_puzzle
    from verify.walk.report import report as make_report
    from verify.walk.walk import walk

    puzzle = read_puzzle(options.puzzle)
    walked = walk(puzzle)
    words = read_words(options.language)
    telling = tell_walk(puzzle, walked, words)
    report = make_report(puzzle, walked) if options.report else None
    if options.json:
        extra = {} if report is None else {"report": report_facts(puzzle, telling, report)}
        answer_json(document(puzzle, telling, walked) | extra)
    elif report is not None:
        lines = tell_report(puzzle, report, telling, words)
        answer("\n".join([puzzle.title, "", *lines]))
    else:
        answer(_text(puzzle, telling))
    state = "finished" if walked.finished else "not finished"
    tell(f"{options.puzzle}: {state}, {len(telling.steps)} steps", options.quiet)
    return 0 if walked.finished else 1


def _text(puzzle: "Puzzle", telling: "Telling") -> str:
    """Title, summary, numbered paragraphs, and why it goes no further where it does not."""
    numbered = [f"{each.number}. {each.words}" for each in telling.paragraphs]
    end = ["", telling.end] if telling.end else []
    return "\n".join([puzzle.title, "", telling.summary, "", *numbered, *end])


def document(puzzle: "Puzzle", telling: "Telling", walked: "Walk") -> dict[str, Any]:
    """The JSON document of a walk."""
    from verify import __version__
    from verify.walk.grade import grade

    graded = grade(walked)

    return {
        "reglet": __version__,
        "file": puzzle.file,
        "id": puzzle.id,
        "finished": walked.finished,
        "grade": {
            "band": graded.band.value,
            "score": graded.score,
            "hardest": graded.hardest.value if graded.hardest else None,
        },
        "steps": [_facts(puzzle, told) for told in telling.steps],
    }


def _facts(puzzle: "Puzzle", told: "Told") -> dict[str, Any]:
    """A step, its digits by number."""
    from verify.pencil import digits_of

    name, because = puzzle.board.name, told.step.because
    return {
        "technique": told.step.technique.value,
        "rule": told.step.rule,
        "places": {name(cell): digit for cell, digit in told.step.places},
        "removes": {name(cell): list(digits_of(mask)) for cell, mask in told.removes},
        "because": {
            "cells": list(map(name, because.cells)),
            "digits": list(digits_of(because.digits)),
        },
        "words": told.words,
    }


def report_facts(puzzle: "Puzzle", telling: "Telling", report: "Report") -> dict[str, Any]:
    """The report; steps by their places in `steps`, counted from 1."""
    from dataclasses import asdict

    from verify.walk.report import place_of

    board = puzzle.board
    marks = [{"rule": mark.rule, "at": place_of(board, mark)} for mark in report.unused.marks]
    return {
        "break_in": report.break_in and _break_in_facts(telling, report.break_in),
        "tightest": report.tightest and _tightest_facts(puzzle, report.tightest),
        "techniques": {technique.value: count for technique, count in report.counts.items()},
        "once": [technique.value for technique in report.once],
        "unused": {"givens": list(map(board.name, report.unused.givens)), "marks": marks},
        "symmetry": {"givens": _values(report.givens), "marks": _values(report.marks)},
        "stop": report.stop and asdict(report.stop),
    }


def _break_in_facts(telling: "Telling", break_in: "BreakIn") -> dict[str, Any]:
    """Digits placed by plain singles, the step after them, and the first placement after that."""

    def number(step: "Step") -> int:
        return [told.step for told in telling.steps].index(step) + 1

    return {
        "singles": break_in.singles,
        "step": number(break_in.step),
        "placement": break_in.placement and number(break_in.placement),
    }


def _tightest_facts(puzzle: "Puzzle", tightest: "Tightest") -> dict[str, Any]:
    return {
        "technique": tightest.technique.value,
        "cells": list(map(puzzle.board.name, tightest.cells)),
        "filled": tightest.filled,
    }


def _values(symmetries: "tuple[Symmetry, ...] | None") -> list[str] | None:
    return None if symmetries is None else [symmetry.value for symmetry in symmetries]
