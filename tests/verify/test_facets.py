"""Facets say nothing that a mark does not say, all of it where they say so, and all that they can.

What a mark *could* say is found by trial: the clauses of many random marks are asked whether two
of their cells can be alike, or one not smaller than another, and what their answers have in common
as points in space: each equation that holds for all of them takes away a dimension. What holds for
every mark of a kind with as many cells is no accident of one of them, and must be stated.
"""

import random
from collections import defaultdict
from dataclasses import fields
from enum import Enum
from functools import cache
from itertools import combinations, permutations, product

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pysat.solvers import Glucose4

from tests.support.counting import plain_answers
from tests.support.draws import cases
from tests.support.sowing import sown
from verify.facets import Form, facets_of
from verify.formula.formula import Formula
from verify.pencil import digits_of
from verify.rules import RULES

EVERY_RULE = pytest.mark.parametrize("name", [rule.name for rule in RULES])

ENOUGH = 6
"""Marks of a kind with as many cells, from which on what they share is no accident."""

SIZES = {"beyond": 9}
"""On six digits the ends of such a line leave so few for the others that these fall in line."""


def keeps(facets, grid):
    """Whether a grid keeps all facets, by the plainest reading of each."""
    return (
        all(
            len({grid[cell] for cell in group.cells}) == len(group.cells) for group in facets.groups
        )
        and all(grid[one] != grid[other] for one, other in facets.apart())
        and all(grid[low] < grid[high] for low, high in facets.rises)
        and all(
            sum(grid[cell] for cell in said.cells)
            == said.total + sum(weight * grid[cell] for cell, weight in said.others)
            for said in facets.sums
        )
    )


@EVERY_RULE
@given(data=st.data())
def test_facets_follow_from_the_mark_and_are_all_of_it_where_they_say_so(name, data):
    case = data.draw(cases(name, most_marks=1))
    (constraint,) = case.constraints
    facets = facets_of(constraint, case.board.digits)
    assert all(keeps(facets, grid) for grid in plain_answers(case.pencil, case.constraints))
    if facets.all_by is not Form.MORE:
        said = [grid for grid in plain_answers(case.pencil, ()) if keeps(facets, grid)]
        assert all(constraint.holds(grid) for grid in said)


class Asked:
    """The clauses of one mark, asked about two cells at a time."""

    def __init__(self, constraint, board):
        every = (2 << board.digits) - 2
        self.digits = board.digits
        self.formula = Formula(board.digits, [every] * len(board.cells))
        constraint.clauses(self.formula)
        self.solver = Glucose4(self.formula.clauses)
        for cell in board.cells:
            of_cell = [self.formula.literal(cell, digit) for digit in digits_of(every)]
            self.solver.add_clause(of_cell)
            for one, other in combinations(of_cell, 2):
                self.solver.add_clause([-one, -other])

    def can_hold(self, one, other, pairs):
        """Whether two cells can hold one of some pairs of digits."""
        return any(
            self.solver.solve([self.formula.literal(one, a), self.formula.literal(other, b)])
            for a, b in pairs
        )

    def answers(self, dice, count=60):
        """Some answers, each led to by digits wished for at random."""
        for _ in range(count):
            wishes = [dice.choice((-1, 1)) * literal for literal in range(1, self.formula.true)]
            self.solver.set_phases(wishes)
            self.solver.solve()
            model = set(self.solver.get_model())
            yield [
                next(d for d in range(1, self.digits + 1) if self.formula.literal(cell, d) in model)
                for cell in range(len(self.formula.pencil))
            ]


def found_by_trial(constraint, board):
    """Pairs of places in a mark: those that always differ, and those that always rise."""
    asked, cells = Asked(constraint, board), list(dict.fromkeys(constraint.cells))
    digits = range(1, board.digits + 1)
    alike = [(digit, digit) for digit in digits]
    falling = [(a, b) for a, b in product(digits, digits) if a > b]
    differ = {
        (one, other)
        for one, other in combinations(range(len(cells)), 2)
        if not asked.can_hold(cells[one], cells[other], alike)
    }
    rise = {
        (one, other)
        for one, other in permutations(range(len(cells)), 2)
        if (one, other) in differ or (other, one) in differ
        if not asked.can_hold(cells[one], cells[other], falling)
    }
    return differ, rise


def stated(constraint, digits):
    """The same, as the facets say it."""
    cells = list(dict.fromkeys(constraint.cells))
    facets, at = facets_of(constraint, digits), {cell: index for index, cell in enumerate(cells)}
    pairs = [pair for group in facets.groups for pair in combinations(group.cells, 2)]
    pairs += facets.apart()
    differ = {tuple(sorted((at[one], at[other]))) for one, other in pairs}
    rise = {(at[low], at[high]) for low, high in facets.rises}
    while more := {(a, d) for (a, b), (c, d) in product(rise, rise) if b == c} - rise:
        rise |= more
    return differ, rise


def equations_by_trial(constraint, board):
    """How many equations hold between the digits of a mark.

    Cells that are always alike count as one, and those that always hold one digit not at all.
    """
    answers = numpy.array(list(Asked(constraint, board).answers(random.Random(1))))
    columns = numpy.unique(answers[:, sorted(set(constraint.cells))], axis=1)
    columns = columns[:, (columns != columns[0]).any(axis=0)]
    return columns.shape[1] - numpy.linalg.matrix_rank(columns - columns[0])


def equations_stated(constraint, board):
    """How many of the stated sums, also of houses that hold every digit, are no others' sums."""
    facets = facets_of(constraint, board.digits)
    full = (group.cells for group in facets.groups if len(group.cells) == board.digits)
    terms = [dict(said.terms) for said in facets.sums]
    terms += [dict.fromkeys(cells, 1) for cells in full]
    rows = [[each.get(cell, 0) for cell in board.cells] for each in terms]
    return numpy.linalg.matrix_rank(rows) if rows else 0


def kind_of(constraint):
    """What marks have in common that differ in cells and numbers alone."""
    words = (value for value in vars_of(constraint) if isinstance(value, str | bool | Enum))
    return type(constraint).__name__, *words, len(set(constraint.cells))


def vars_of(constraint):
    return [getattr(constraint, field.name) for field in fields(constraint)]


@cache
def marks_of_kinds(name):
    """Marks sown on random boards, some of each kind, with their boards."""
    kinds = defaultdict(list)
    for seed in range(5):
        puzzle, _ = sown(name, SIZES.get(name, 6), seed=seed)
        for use in puzzle.uses:
            if use.rule.name == name:
                for constraint in use.constraints:
                    kinds[kind_of(constraint)].append((constraint, puzzle.board))
    dice = random.Random(1)
    some = {kind: dice.sample(marks, min(12, len(marks))) for kind, marks in kinds.items()}
    return {kind: marks for kind, marks in some.items() if len(marks) >= ENOUGH and kind[-1] > 1}


@EVERY_RULE
def test_what_cells_of_marks_of_a_kind_share_is_stated(name):
    for kind, marks in marks_of_kinds(name).items():
        tried = [found_by_trial(*mark) for mark in marks]
        said = [stated(constraint, board.digits) for constraint, board in marks]
        for form, what in enumerate(("differ", "rise")):
            shared = set.intersection(*(found[form] for found in tried))
            missing = [shared - each[form] for each in said]
            assert not any(missing), f"{kind}: {what} {missing}"


@EVERY_RULE
def test_equations_that_hold_for_all_marks_of_a_kind_are_stated(name):
    for kind, marks in marks_of_kinds(name).items():
        found = min(equations_by_trial(*mark) for mark in marks)
        assert min(equations_stated(*mark) for mark in marks) >= found, kind
