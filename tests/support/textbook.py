"""Puzzles for a SAT solver as a textbook has them: built anew each time, nothing shared.

A variable for each digit of each cell; at most one by every two of them. A mark lists what is
forbidden of two cells, or has a variable for each choice that it leaves. It is what a program
has that uses python-sat without giving it a thought, and it knows only a few rules.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import combinations, count, pairwise, product
from threading import Timer
from typing import Any, Final, TypeAlias

from pysat.solvers import Glucose4

from verify.puzzle import Puzzle
from verify.rules.cells.cage import Cage
from verify.rules.lines.arrow import Arrow
from verify.rules.lines.palindrome import Palindrome
from verify.rules.lines.thermometer import Thermometer
from verify.rules.workings.apart import Apart
from verify.rules.workings.distinct import Distinct

Clauses: TypeAlias = Iterator[list[int]]


class _Text:
    """The variables of a puzzle, and clauses over them."""

    def __init__(self, digits: int, places: int) -> None:
        self.digits = range(1, digits + 1)
        self.fresh = count(places * digits + 1).__next__

    def at(self, cell: int, digit: int) -> int:
        return cell * len(self.digits) + digit

    def one_of(self, literals: Sequence[int]) -> Clauses:
        yield list(literals)
        yield from ([-one, -other] for one, other in combinations(literals, 2))

    def forbidding(self, one: int, other: int, fits: Callable[[int, int], bool]) -> Clauses:
        for here, there in product(self.digits, repeat=2):
            if not fits(here, there):
                yield [-self.at(one, here), -self.at(other, there)]

    def choosing(self, cells: Sequence[int], choices: Iterable[Sequence[int]]) -> Clauses:
        """The cells hold one of the rows of digits."""
        chosen = []
        for row in choices:
            chosen.append(self.fresh())
            yield from ([-chosen[-1], self.at(*each)] for each in zip(cells, row, strict=True))
        yield chosen


def _apart(text: _Text, cells: Iterable[tuple[int, int]]) -> Clauses:
    for one, other in cells:
        yield from text.forbidding(one, other, lambda here, there: here != there)


def _distinct(text: _Text, rule: Distinct) -> Clauses:
    yield from _apart(text, combinations(rule.cells, 2))
    if len(rule.cells) == len(text.digits):
        yield from ([text.at(cell, digit) for cell in rule.cells] for digit in text.digits)


def _leaps(text: _Text, rule: Apart) -> Clauses:
    cell, *others = rule.cells
    return _apart(text, ((cell, other) for other in others))


def _thermometer(text: _Text, rule: Thermometer) -> Clauses:
    for low, high in pairwise(rule.cells):
        yield from text.forbidding(low, high, lambda here, there: here < there)


def _palindrome(text: _Text, rule: Palindrome) -> Clauses:
    for one, other in zip(rule.cells, reversed(rule.cells), strict=True):
        if one < other:
            yield from text.forbidding(one, other, lambda here, there: here == there)


def _arrow(text: _Text, rule: Arrow) -> Clauses:
    (total,) = rule.total
    rows = product(text.digits, repeat=len(rule.shaft))
    sums = ((sum(row), *row) for row in rows if sum(row) <= len(text.digits))
    return text.choosing((total, *rule.shaft), sums)


def _cage(text: _Text, rule: Cage) -> Clauses:
    yield from _apart(text, combinations(rule.cells, 2))
    rows = product(text.digits, repeat=len(rule.cells))
    fitting = (row for row in rows if sum(row) == rule.total and len({*row}) == len(row))
    yield from text.choosing(rule.cells, fitting)


KNOWN: Final[dict[type, Callable[[_Text, Any], Clauses]]] = {
    Distinct: _distinct,
    Apart: _leaps,
    Thermometer: _thermometer,
    Palindrome: _palindrome,
    Arrow: _arrow,
    Cage: _cage,
}


def textbook_answers(puzzle: Puzzle, seconds: float) -> list[tuple[int, ...]]:
    """Up to two answers; raises TimeoutError where the seconds are over before they are found."""
    text = _Text(puzzle.board.digits, len(puzzle.givens))
    with Glucose4() as solver:
        for cell, given in enumerate(puzzle.givens):
            for clause in text.one_of([text.at(cell, digit) for digit in text.digits]):
                solver.add_clause(clause)
            if given:
                solver.add_clause([text.at(cell, given)])
        for constraint in puzzle.constraints():
            for clause in KNOWN[type(constraint)](text, constraint):
                solver.add_clause(clause)
        timer = Timer(seconds, solver.interrupt)
        timer.start()
        try:
            return list(_found(solver, len(puzzle.givens), text))
        finally:
            timer.cancel()
            timer.join()


def _found(solver: Glucose4, cells: int, text: _Text) -> Iterator[tuple[int, ...]]:
    for _ in range(2):
        found = solver.solve_limited(expect_interrupt=True)
        if found is None:
            raise TimeoutError
        if not found:
            return
        digits = len(text.digits)
        placed = [each for each in solver.get_model()[: cells * digits] if each > 0]
        yield tuple((each - 1) % digits + 1 for each in placed)
        solver.add_clause([-each for each in placed])
