"""What is spare, beside CP-SAT trying each part of a small puzzle."""

import random
from functools import partial
from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support import maker
from tests.support.boards import NEEDS_A_SEARCH, classic, plain
from tests.support.effort import effort
from tests.support.models import answers_with
from verify.budget import Budget, Deadline
from verify.manifest.read import puzzle_from_text
from verify.proof.parts import GivenPart, parts_of
from verify.proof.spare import Spare, spare_parts
from verify.proof.verdict import prove
from verify.rules import BY_NAME

BOARDS = [
    "kind: sudoku\nsize: 4\n",
    "kind: sudoku\nsize: 4\nrules:\n  thermometer: [r1c1 se, r4c2 e, r2c4 s s]\n",
    "kind: sudoku\nsize: 4\nrules:\n  diagonals: both\n",
    "kind: latin\nsize: 4\nholes: [r2c3]\nrules:\n  cage: [{cells: r1c1 e, sum: 4}]\n",
    "kind: latin\nsize: 4\nrules:\n  odd: [r1c1, r2c2]\n  greater: [r3c3 > r3c4]\n",
]


def has_one(puzzle, parts):
    """Whether CP-SAT finds just one answer to the grid with these parts alone."""
    return len(answers_with(puzzle, parts)) == 1


def tried(puzzle):
    """The parts without which there is still one answer, each tried alone."""
    every = parts_of(puzzle)
    return tuple(
        part for part in every if has_one(puzzle, [other for other in every if other != part])
    )


@effort(0.6)
@given(text=st.sampled_from(BOARDS), seed=st.integers(0, 10**6), keep=st.integers(0, 5))
def test_spare_is_what_trying_each_part_finds(text, seed, keep):
    made = maker.make(puzzle_from_text(text), seed, keep=keep)
    (answer,) = prove(made).answers
    assert spare_parts(made, answer) == Spare(tried(made))


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_spare_in_every_rule(name):
    """Some of the parts that are spare, and some that are not."""
    puzzle = puzzle_from_text(BY_NAME[name].example)
    (answer,) = prove(puzzle).answers
    spare, every = spare_parts(puzzle, answer), parts_of(puzzle)
    assert spare.undecided == ()
    for part in random.Random(name).sample(every, min(4, len(every))):
        others = [other for other in every if other != part]
        assert has_one(puzzle, others) == (part in spare.parts)


def test_a_given_that_is_not_needed_is_spare_and_none_of_the_fewest():
    hard = classic(NEEDS_A_SEARCH)
    (answer,) = prove(hard).answers
    assert spare_parts(hard, answer) == Spare(())
    cell = hard.givens.index(0)
    more = maker.with_givens(hard, [*hard.givens[:cell], answer[cell], *hard.givens[cell + 1 :]])
    assert GivenPart(cell, answer[cell]) in spare_parts(more, answer).parts


def test_past_the_deadline_all_is_undecided():
    puzzle = maker.make(plain(4, (2, 2)), 1, keep=3)
    (answer,) = prove(puzzle).answers
    over = Budget(seconds=-1.0).deadline()
    assert spare_parts(puzzle, answer, over) == Spare((), parts_of(puzzle))


def test_what_is_decided_grows_with_the_time():
    """The clock ticks at every look at it."""
    puzzle = maker.make(plain(4, (2, 2)), 1, keep=3)
    (answer,) = prove(puzzle).answers
    whole = spare_parts(puzzle, answer)
    left = []
    for looks in range(100):
        spare = spare_parts(puzzle, answer, Deadline(float(looks), partial(next, count())))
        assert {*spare.parts} <= {*whole.parts}
        assert {*whole.parts} <= {*spare.parts, *spare.undecided}
        left.append(len(spare.undecided))
    assert left == sorted(left, reverse=True)
    assert (left[0], left[-1]) == (len(parts_of(puzzle)), 0)
    assert len({*left}) > 2


def test_a_part_that_costs_too_much_is_undecided():
    hard = classic(NEEDS_A_SEARCH)
    (answer,) = prove(hard).answers
    assert spare_parts(hard, answer, conflicts=0) == Spare((), parts_of(hard))
