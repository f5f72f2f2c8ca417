"""The JSON documents of `reglet walk`."""

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from layout.telling.telling import Telling, Told
from verify import __version__
from verify.board import Board, Cell
from verify.disguise.symmetry import Symmetry
from verify.pencil import Mask, digits_of
from verify.proof.verdict import Verdict
from verify.puzzle import Puzzle
from verify.walk.facts.step import Consequence, DeadEnd, House, Link, Step
from verify.walk.report.grade import grade
from verify.walk.report.report import BreakIn, Report, Tightest, place_of
from verify.walk.report.unused import Written
from verify.walk.told.head import head_of
from verify.walk.told.path import ToldPath
from verify.walk.walk import Walk


def document(puzzle: Puzzle, telling: Telling, walked: Walk, level: str) -> dict[str, Any]:
    """The JSON document of a walk; steps are told by their numbers, the first one 1."""
    graded = grade(walked)
    head = head_of([told.kept for told in telling.steps])
    return {
        "reglet": __version__,
        "file": puzzle.file,
        "id": puzzle.id,
        "finished": telling.finished,
        "grade": {
            "band": graded.band.value,
            "score": graded.score,
            "hardest": graded.hardest.value if graded.hardest else None,
        },
        "level": level,
        "idea": telling.summary,
        "break_in": _number(head.break_in),
        "crux": _number(head.crux),
        "steps": [_facts(puzzle.board, told) for told in telling.steps],
        "told": [{"number": each.number, "words": each.words} for each in telling.paragraphs],
    }


def verdict_facts(board: Board, verdict: Verdict, path: ToldPath) -> dict[str, Any]:
    """The verdict, the cells that differ where it is `many`, and the contradiction of `none`."""
    facts: dict[str, Any] = {"verdict": verdict.word}
    if verdict.word == "many":
        facts["differs"] = list(map(board.name, verdict.differs))
    if verdict.word == "none":
        facts["dead_end"] = path.dead_end and _end(board, path.dead_end)
    return facts


def _number(step: int | None) -> int | None:
    return None if step is None else step + 1


def _facts(board: Board, told: Told) -> dict[str, Any]:
    """A step, its digits by number."""
    step = told.step
    return {
        "number": told.number,
        "kind": told.kind.value,
        "technique": step.technique.value,
        "rule": step.rule,
        "places": {board.name(cell): digit for cell, digit in step.places},
        "removes": digits_of_cells(board, told.removes),
        "needs": digits_of_cells(board, told.kept.based.needs),
        "because": _because(board, step),
        "uses": [use + 1 for use in told.kept.uses],
        "words": told.words,
    }


def _because(board: Board, step: Step) -> dict[str, Any]:
    because = step.because
    return {
        "cells": list(map(board.name, because.cells)),
        "digits": list(digits_of(because.digits)),
        "houses": [_house(board, house) for house in because.houses],
        "marks": [_mark(board, link) for link in because.links],
        "chain": _chain(board, step.chain),
        "ways": [_chain(board, way) for way in step.ways],
        "asides": [
            {
                "after": aside.after,
                "chain": _chain(board, aside.chain),
                "end": _end(board, aside.dead_end),
            }
            for aside in step.asides
        ],
        "end": step.dead_end and _end(board, step.dead_end),
    }


def digits_of_cells(board: Board, masks: Iterable[tuple[Cell, Mask]]) -> dict[str, list[int]]:
    """Digits of cells, by the cells' names."""
    return {board.name(cell): list(digits_of(mask)) for cell, mask in masks}


def _house(board: Board, house: House) -> str:
    """Its kind, and the first of its cells."""
    return f"{house.kind} {board.name(house.cells[0])}"


def _mark(board: Board, link: Link) -> str:
    """The rule, and where a manifest writes the mark."""
    return f"{link.rule} {place_of(board, Written(link.rule, link.constraint))}".rstrip()


def _chain(board: Board, chain: Iterable[Consequence]) -> list[dict[str, int]]:
    return [{board.name(each.cell): each.digit} for each in chain]


def _end(board: Board, end: DeadEnd) -> dict[str, Any]:
    """Where a supposition fails."""
    return {
        "cell": None if end.cell is None else board.name(end.cell),
        "digit": end.digit or None,
        "house": end.house and _house(board, end.house),
    }


def report_facts(puzzle: Puzzle, report: Report) -> dict[str, Any]:
    """The report; steps by their numbers."""
    board = puzzle.board
    marks = [{"rule": mark.rule, "at": place_of(board, mark)} for mark in report.unused.marks]
    return {
        "break_in": report.break_in and _break_in_facts(report.break_in),
        "hard": [number + 1 for number in report.hard],
        "tightest": report.tightest and _tightest_facts(puzzle, report.tightest),
        "techniques": {technique.value: count for technique, count in report.counts.items()},
        "once": [technique.value for technique in report.once],
        "unused": {"givens": list(map(board.name, report.unused.givens)), "marks": marks},
        "symmetry": {"givens": _values(report.givens), "marks": _values(report.marks)},
        "stop": report.stop and asdict(report.stop),
    }


def _break_in_facts(break_in: BreakIn) -> dict[str, Any]:
    """Digits placed before, the step that breaks in, and the first placement after that."""
    return {
        "singles": break_in.singles,
        "step": break_in.step + 1,
        "placement": _number(break_in.placement),
    }


def _tightest_facts(puzzle: Puzzle, tightest: Tightest) -> dict[str, Any]:
    return {
        "technique": tightest.technique.value,
        "cells": list(map(puzzle.board.name, tightest.cells)),
        "filled": tightest.filled,
    }


def _values(symmetries: tuple[Symmetry, ...] | None) -> list[str] | None:
    return None if symmetries is None else [symmetry.value for symmetry in symmetries]
