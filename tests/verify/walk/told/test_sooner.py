"""Digits that one sees come before the strikes which they make needless."""

from tests.support.boards import plain
from tests.support.told import told_example
from verify.pencil import bit
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.event import Based
from verify.walk.told.needed import Kept
from verify.walk.told.sooner import placed_sooner

PUZZLE = plain(4, (2, 2), (1, 2, 3, 0, 3, 4, 0, 0, 2, 0, 4, 3, 4, 3, 2, 1))
"""Open: r1c4 (4), r2c3 (1), r2c4 (2), r3c2 (1)."""


def placing(cell, digit):
    return Step(Technique.NAKED_SINGLE, Because((cell,), bit(digit)), ((cell, digit),))


def strike(cell, *digits):
    mask = sum(map(bit, digits))
    return Step(Technique.LOCKED, Because((cell,), mask), removes=((cell, mask),))


def order(*steps, puzzle=PUZZLE):
    return placed_sooner([Kept(Based(step, ()), ()) for step in steps], puzzle)


def test_a_digit_that_takes_what_is_struck_comes_first():
    seen, other = placing(6, 1), placing(3, 4)
    struck = strike(7, 1)
    assert order(struck, other, seen) == [seen, struck, other]


def test_a_digit_takes_the_others_of_its_own_cell():
    seen, struck = placing(6, 1), strike(6, 2, 3)
    assert order(struck, seen) == [seen, struck]


def test_all_that_is_struck_must_go_by_digits():
    steps = strike(7, 1, 3), placing(6, 1)
    assert order(*steps) == list(steps)
    far = strike(9, 1), placing(3, 4), placing(6, 1)
    assert order(*far) == list(far)


def test_what_cannot_be_seen_yet_waits():
    bare = plain(4, (2, 2))
    steps = strike(1, 1), placing(0, 1)
    assert order(*steps, puzzle=bare) == list(steps)


def test_no_told_strike_is_made_needless_by_a_digit_that_is_seen():
    puzzle, path = told_example("regions")
    steps = [kept.step for kept in path.steps]
    assert placed_sooner(path.steps, puzzle) == steps
