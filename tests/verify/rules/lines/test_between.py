"""What between lines leave, and which lines are refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.counting import plain_answers
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.between import Between

HEAD = "kind: blank\nsize: {size}\nrules:\n  between:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def left(pencil):
    return ["".join(map(str, digits_of(mask))) for mask in pencil]


def problems(text):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(text, "b.yaml")
    return [str(problem) for problem in refused.value.problems]


@pytest.mark.parametrize("digits", [3, 6, 9])
def test_a_line_of_three_cells_holds_each_three_digits_in_two_orders(digits):
    answers = list(plain_answers([every_digit(digits)] * 3, [Between((0, 1, 2))]))
    assert len(answers) == 2 * digits * (digits - 1) * (digits - 2) // 6


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (["123456789", "123456789", "123456789"], ["123456789", "2345678", "123456789"]),
        # A placed end: the other one lies two or more away, on either side.
        (["5", "123456789", "123456789"], ["5", "234678", "123789"]),
        # A placed digit inside parts the ends, but does not tell which is which.
        (["123456", "4", "123456"], ["12356", "4", "12356"]),
        # Once one end is known to be the lower, the other is the higher.
        (["12", "4", "5", "123456"], ["12", "4", "5", "6"]),
    ],
)
def test_strikes(before, after):
    pencil = masks(*before)
    assert propagate([Between(tuple(range(len(pencil))))], pencil)
    assert left(pencil) == after


@given(st.lists(st.integers(1, 63).map(lambda bits: bits << 1), min_size=3, max_size=5))
def test_one_call_strikes_all_that_stands_in_no_answer(pencil):
    """Nothing but the plain check tells what can stay."""
    line = Between(tuple(range(len(pencil))))
    kept = [0] * len(pencil)
    for answer in plain_answers(pencil, [line]):
        kept = [mask | 1 << digit for mask, digit in zip(kept, answer, strict=True)]
    marks = list(pencil)
    for strike in line.strikes(pencil):
        for cell, mask in strike.removes:
            marks[cell] &= ~mask
    assert marks == kept


def test_digits_inside_may_repeat_but_never_equal_an_end():
    line = Between((0, 1, 2, 3))
    assert line.holds((2, 3, 3, 4))
    assert line.holds((4, 3, 3, 2))
    assert not line.holds((2, 3, 2, 4))
    assert not line.holds((2, 3, 4, 4))
    assert not line.holds((3, 3, 3, 3))


def test_a_line_has_something_inside_at_the_place_of_the_path():
    text = HEAD.format(size=4) + "    - r1c1 2s\n    - r1c3 s\n"
    expected = "b.yaml:6:7: found a path of two cells, expected three cells or more"
    assert problems(text) == [expected]


def test_two_digits_leave_nothing_between():
    text = HEAD.format(size=2) + "    - r1c1 e s\n"
    assert problems(text) == [
        "b.yaml:5:5: found such lines with 2 digits, expected a board of 3 or more"
    ]
    assert puzzle_from_text(HEAD.format(size=3) + "    - r1c1 e s\n", "b.yaml")


def test_it_is_drawn_between_two_discs():
    puzzle = puzzle_from_text(HEAD.format(size=4) + "    - r1c1 2se\n", "b.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["between"])
    trail = Trail("between", ((0, 5, 10),), start="circle", end="circle")
    assert use.marks(puzzle.board) == (trail,)
