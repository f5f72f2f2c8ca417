"""The JSON documents of `reglet walk`."""

from dataclasses import asdict
from typing import Any

from layout.telling.telling import Telling, Told
from verify import __version__
from verify.disguise.symmetry import Symmetry
from verify.pencil import digits_of
from verify.puzzle import Puzzle
from verify.walk.facts.step import Step
from verify.walk.report.grade import grade
from verify.walk.report.report import BreakIn, Report, Tightest, place_of
from verify.walk.walk import Walk


def document(puzzle: Puzzle, telling: Telling, walked: Walk) -> dict[str, Any]:
    """The JSON document of a walk."""
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


def _facts(puzzle: Puzzle, told: Told) -> dict[str, Any]:
    """A step, its digits by number."""
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


def report_facts(puzzle: Puzzle, telling: Telling, report: Report) -> dict[str, Any]:
    """The report; steps by their places in `steps`, counted from 1."""
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


def _break_in_facts(telling: Telling, break_in: BreakIn) -> dict[str, Any]:
    """Digits placed by plain singles, the step after them, and the first placement after that."""

    def number(step: Step) -> int:
        return [told.step for told in telling.steps].index(step) + 1

    return {
        "singles": break_in.singles,
        "step": number(break_in.step),
        "placement": break_in.placement and number(break_in.placement),
    }


def _tightest_facts(puzzle: Puzzle, tightest: Tightest) -> dict[str, Any]:
    return {
        "technique": tightest.technique.value,
        "cells": list(map(puzzle.board.name, tightest.cells)),
        "filled": tightest.filled,
    }


def _values(symmetries: tuple[Symmetry, ...] | None) -> list[str] | None:
    return None if symmetries is None else [symmetry.value for symmetry in symmetries]
