"""Puzzles for z3, as its users write them: whole numbers, `Distinct`, sums. It knows few rules."""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import Any, Final

import z3

from verify.puzzle import Puzzle
from verify.rules.cells.cage import Cage
from verify.rules.lines.arrow import Arrow
from verify.rules.lines.palindrome import Palindrome
from verify.rules.lines.thermometer import Thermometer
from verify.rules.workings.apart import Apart
from verify.rules.workings.distinct import Distinct

At = Sequence[Any]


def _distinct(at: At, rule: Distinct) -> Iterator[Any]:
    yield z3.Distinct([at[cell] for cell in rule.cells])


def _leaps(at: At, rule: Apart) -> Iterator[Any]:
    cell, *others = rule.cells
    yield from (at[cell] != at[other] for other in others)


def _thermometer(at: At, rule: Thermometer) -> Iterator[Any]:
    yield from (at[low] < at[high] for low, high in pairwise(rule.cells))


def _palindrome(at: At, rule: Palindrome) -> Iterator[Any]:
    for one, other in zip(rule.cells, reversed(rule.cells), strict=True):
        if one < other:
            yield at[one] == at[other]


def _arrow(at: At, rule: Arrow) -> Iterator[Any]:
    (total,) = rule.total
    yield z3.Sum([at[cell] for cell in rule.shaft]) == at[total]


def _cage(at: At, rule: Cage) -> Iterator[Any]:
    yield z3.Distinct([at[cell] for cell in rule.cells])
    yield z3.Sum([at[cell] for cell in rule.cells]) == rule.total


KNOWN: Final[dict[type, Callable[[At, Any], Iterator[Any]]]] = {
    Distinct: _distinct,
    Apart: _leaps,
    Thermometer: _thermometer,
    Palindrome: _palindrome,
    Arrow: _arrow,
    Cage: _cage,
}


def z3_answers(puzzle: Puzzle, seconds: float) -> list[tuple[int, ...]]:
    """Up to two answers; raises TimeoutError where the seconds are over before they are found."""
    at = [z3.Int(f"c{cell}") for cell in range(len(puzzle.givens))]
    solver = z3.Solver()
    solver.set("timeout", int(seconds * 1000))
    for digit, given in zip(at, puzzle.givens, strict=True):
        solver.add(digit == given if given else z3.And(digit >= 1, digit <= puzzle.board.digits))
    for constraint in puzzle.constraints():
        solver.add(*KNOWN[type(constraint)](at, constraint))
    answers: list[tuple[int, ...]] = []
    while len(answers) < 2:
        found = solver.check()
        if found == z3.unknown:
            raise TimeoutError
        if found == z3.unsat:
            break
        model = solver.model()
        answers.append(tuple(model.eval(digit, True).as_long() for digit in at))
        solver.add(z3.Or([digit != value for digit, value in zip(at, answers[-1], strict=True)]))
    return answers
