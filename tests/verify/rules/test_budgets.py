"""Every rule builds its clauses, and is walked, with an eye on the clock."""

from contextlib import suppress

import pytest

from tests.support.sowing import sown
from verify.budget import BudgetSpent, Deadline
from verify.formula.formula import BETWEEN_LOOKS, Formula
from verify.manifest.read import puzzle_from_text
from verify.proof.propagate import penciled
from verify.rules import BY_NAME
from verify.walk.walk import walk

LONGEST_CLAUSE = 100


class Clock:
    """A clock that stands still until it is told to go on."""

    def __init__(self):
        self.now = 0.0
        self.looks = 0

    def __call__(self):
        self.looks += 1
        return self.now


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_no_rule_makes_many_clauses_after_the_deadline(name):
    puzzle = puzzle_from_text(BY_NAME[name].example)
    clock = Clock()
    formula = Formula(puzzle.board.digits, [mask | 62 for mask in penciled(puzzle)])
    formula.deadline = Deadline(1.0, clock)
    clock.now = 2.0
    for constraint in puzzle.constraints():
        before = sum(map(len, formula.clauses))
        with suppress(BudgetSpent):
            constraint.clauses(formula)
        made = sum(map(len, formula.clauses)) - before
        assert made <= BETWEEN_LOOKS + LONGEST_CLAUSE


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_every_rule_looks_once_for_so_many_literals(name):
    puzzle, _ = sown(name, 6, 1)
    clock = Clock()
    formula = Formula(6, penciled(puzzle), Deadline(1.0, clock))
    for constraint in puzzle.constraints():
        constraint.clauses(formula)
    literals = sum(map(len, formula.clauses))
    assert clock.looks >= literals // (2 * BETWEEN_LOOKS)


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_every_walk_ends_at_once_when_its_time_is_over(name):
    puzzle = puzzle_from_text(BY_NAME[name].example)
    clock = Clock()
    clock.now = 2.0
    path = walk(puzzle, deadline=Deadline(1.0, clock))
    assert path.cut_short
    assert path.rounds == ()
    assert clock.looks == 1
