"""Why there are many answers, beside all answers of small boards as CP-SAT lists them."""

import random
from collections import Counter
from dataclasses import replace
from functools import partial
from itertools import combinations, count

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.support.boards import plain
from tests.support.effort import effort
from tests.support.maker import with_givens
from tests.support.models import puzzle_answers
from verify.budget import Budget, Deadline
from verify.manifest.read import puzzle_from_text
from verify.proof import several as several_module
from verify.proof.several import several
from verify.proof.verdict import prove
from verify.rules import BY_NAME

ALL = 300
"""More than a 4x4 board has answers."""


def apart(one, other):
    return tuple(cell for cell, digit in enumerate(one) if digit != other[cell])


@st.composite
def loose(draw):
    """A small board with a mark or none, and some of the givens of one of its answers."""
    text = draw(
        st.sampled_from(
            [
                "kind: sudoku\nsize: 4\n",
                "kind: sudoku\nsize: 4\nrules:\n  thermometer: [r1c1 se, r4c2 e]\n",
                "kind: sudoku\nsize: 4\nrules:\n  diagonals: both\n",
                "kind: latin\nsize: 4\nholes: [r2c3]\nrules:\n  cage: [{cells: r1c1 e, sum: 4}]\n",
            ]
        )
    )
    puzzle = puzzle_from_text(text)
    dice = random.Random(draw(st.integers(0, 10**6)))
    every = puzzle_answers(puzzle, 50)
    answer = dice.choice(every)
    share = draw(st.sampled_from([0.15, 0.3, 0.5]))
    return with_givens(puzzle, [digit if dice.random() < share else 0 for digit in answer])


def settling_of(every):
    """The digits that stand in one alone of all answers."""
    times = Counter((cell, digit) for answer in every for cell, digit in enumerate(answer))
    return tuple(sorted(placing for placing, number in times.items() if number == 1))


@effort(0.6)
@given(loose())
def test_all_is_as_every_answer_says(puzzle):
    every = puzzle_answers(puzzle, 2000)
    assume(1 < len(every) < 2000)
    verdict = prove(puzzle)
    spread = [cell for cell in puzzle.board.cells if len({answer[cell] for answer in every}) > 1]
    assert (verdict.differs, verdict.differs_all) == (tuple(spread), True)
    for most in (2, 5, len(every) - 1, len(every), 2000):
        found = several(puzzle, verdict, most)
        limit = max(most, 2)
        assert (found.count, found.more) == (min(len(every), limit), len(every) > limit)
        assert found.settling == settling_of(every)
        assert {*found.closest} <= {*every}
        assert found.pattern == apart(*found.closest)
        assert found.smallest
        one = found.closest[0]
        parts = [{*apart(one, other)} for other in every if other != one]
        assert not any(part < {*found.pattern} for part in parts)
        if not found.more and len(every) <= several_module.STARTS:
            distances = [len(apart(*two)) for two in combinations(every, 2)]
            assert len(found.pattern) == min(distances)


@pytest.mark.parametrize("name", ["cage", "anti-knight", "skyscraper", "arrow", "zipper", "quad"])
def test_settling_givens_leave_one_answer_in_boards_with_marks(name):
    puzzle = puzzle_from_text(BY_NAME[name].example)
    puzzle = with_givens(puzzle, [0] * len(puzzle.givens))
    if prove(puzzle).word == "one":
        *ground, marks = puzzle.uses
        fewer = replace(marks, constraints=marks.constraints[::2])
        puzzle = replace(puzzle, uses=(*ground, fewer))
    verdict = prove(puzzle)
    assert verdict.word == "many"
    found = several(puzzle, verdict, 2)
    dice = random.Random(1)
    assert found.settling is not None
    for cell, digit in dice.sample(found.settling, min(3, len(found.settling))):
        givens = [digit if at == cell else given for at, given in enumerate(puzzle.givens)]
        assert len(puzzle_answers(with_givens(puzzle, givens))) == 1
    others = [
        (cell, digit)
        for cell in verdict.differs
        for digit in range(1, puzzle.board.digits + 1)
        if (cell, digit) not in found.settling
    ]
    for cell, digit in dice.sample(others, 5):
        givens = [digit if at == cell else given for at, given in enumerate(puzzle.givens)]
        assert len(puzzle_answers(with_givens(puzzle, givens))) != 1


def test_from_two_answers_that_differ_everywhere_it_goes_to_the_smallest_pattern():
    """In a 4x4 with boxes two answers differ in four cells at least."""
    puzzle = plain(4, (2, 2))
    one = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    other = tuple(digit % 4 + 1 for digit in one)
    found = several(puzzle, replace(prove(puzzle), answers=(one, other)), 2)
    assert (len(found.pattern), found.smallest) == (4, True)


def test_past_the_deadline_only_the_two_answers_are_known():
    puzzle = plain(4, (2, 2))
    verdict = prove(puzzle)
    found = several(puzzle, verdict, deadline=Budget(seconds=-1.0).deadline())
    assert (found.count, found.more, found.settling) == (2, None, None)
    assert (found.closest, found.smallest) == (verdict.answers, False)


def test_what_is_known_grows_with_the_time():
    """The clock ticks at every look at it."""
    puzzle = plain(4, (2, 2), [1, 2, 3, 4, 3, 4, 1, 2, *[0] * 8])
    verdict = prove(puzzle)
    seen = []
    for looks in range(200):
        found = several(puzzle, verdict, 4, Deadline(float(looks), partial(next, count())))
        seen.append(
            (found.count, found.more is not None, found.smallest, found.settling is not None)
        )
        assert found.settling in (None, several(puzzle, verdict, 4).settling)
    assert seen == sorted(seen)
    assert seen[0] == (2, False, False, False)
    assert seen[-1] == (4, True, True, True)


def test_too_many_digits_to_try_are_undecided(monkeypatch):
    puzzle = plain(4, (2, 2))
    monkeypatch.setattr(several_module, "MOST_TRIED", 1)
    assert several(puzzle, prove(puzzle), 2).settling is None


def test_cells_that_differ_may_be_undecided():
    """An empty large board: two answers are found, and the clock is over."""
    puzzle = plain(4, (2, 2))
    for looks in range(2000):
        verdict = prove(puzzle, deadline=Deadline(float(looks), partial(next, count())))
        if verdict.word == "many":
            break
    assert not verdict.differs_all
    assert 0 < len(verdict.differs) < 16
