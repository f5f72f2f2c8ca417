"""What beyond lines leave, and which lines are refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.counting import formula_answers, plain_answers
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.beyond import Beyond

HEAD = "kind: blank\nsize: {size}\nrules:\n  beyond:\n"
SEVEN = st.integers(1, 127).map(lambda bits: bits << 1)


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def left(pencil):
    return ["".join(map(str, digits_of(mask))) for mask in pencil]


def problems(text):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(text, "b.yaml")
    return [str(problem) for problem in refused.value.problems]


def test_six_digits_leave_two_intervals_with_one_digit_beyond_each():
    answers = plain_answers([every_digit(6)] * 3, [Beyond((0, 1, 2))])
    assert list(answers) == [(1, 6, 5), (2, 1, 6), (5, 6, 1), (6, 1, 2)]


def test_five_digits_leave_none():
    assert not list(plain_answers([every_digit(5)] * 3, [Beyond((0, 1, 2))]))


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # Ends from 1 to 5, 2 to 6 ... 5 to 9: the 5 stands in each of these intervals.
        (["123456789"] * 3, ["123456789", "12346789", "123456789"]),
        (["5", "123456789", "123456789"], ["5", "12346789", "19"]),
        (["4", "12346789", "123456789"], ["4", "1239", "89"]),
        (["2", "3456789", "123456789"], ["2", "789", "678"]),
        # The cells inside need not lie on one side.
        (["3", "12", "89", "123456789"], ["3", "12", "89", "78"]),
    ],
)
def test_strikes(before, after):
    pencil = masks(*before)
    assert propagate([Beyond(tuple(range(len(pencil))))], pencil)
    assert left(pencil) == after


@given(st.lists(SEVEN, min_size=3, max_size=4))
def test_one_call_strikes_all_that_stands_in_no_answer(pencil):
    """Nothing but the plain check tells what can stay; the clauses allow just the same."""
    line = Beyond(tuple(range(len(pencil))))
    answers = list(plain_answers(pencil, [line]))
    kept = [sum(1 << digit for digit in set(column)) for column in zip(*answers, strict=True)]
    marks = list(pencil)
    for strike in line.strikes(pencil):
        for cell, mask in strike.removes:
            marks[cell] &= ~mask
    assert marks == (kept or [0] * len(pencil))
    assert sorted(formula_answers(7, pencil, [line])) == answers


def test_digits_inside_may_repeat_but_never_equal_an_end():
    line = Beyond((0, 1, 2, 3))
    assert line.holds((2, 7, 7, 6))
    assert line.holds((6, 1, 7, 2))
    assert not line.holds((2, 2, 7, 6))
    assert not line.holds((2, 6, 7, 6))
    assert not line.holds((3, 7, 7, 6))


def test_a_line_has_something_inside_at_the_place_of_the_path():
    text = HEAD.format(size=6) + "    - r1c1 2s\n    - r1c3 s\n"
    expected = "b.yaml:6:7: found a path of two cells, expected three cells or more"
    assert problems(text) == [expected]


def test_five_digits_are_refused_and_six_are_not():
    text = HEAD.format(size=5) + "    - r1c1 e s\n"
    assert problems(text) == [
        "b.yaml:5:5: found such lines with 5 digits, expected a board of 6 or more"
    ]
    assert puzzle_from_text(HEAD.format(size=6) + "    - r1c1 e s\n", "b.yaml")


def test_it_is_drawn_between_two_discs():
    puzzle = puzzle_from_text(HEAD.format(size=6) + "    - r1c1 2e\n", "b.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["beyond"])
    trail = Trail("beyond", ((0, 1, 2),), start="circle", end="circle")
    assert use.marks(puzzle.board) == (trail,)
