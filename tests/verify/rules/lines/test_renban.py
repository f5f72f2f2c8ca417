"""What renban lines leave, and which lines are refused."""

from itertools import permutations
from math import factorial

import pytest

from tests.support.counting import plain_answers
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.renban import Renban

HEAD = "kind: sudoku\nsize: 6\nrules:\n  renban:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def left(pencil):
    return ["".join(map(str, digits_of(mask))) for mask in pencil]


@pytest.mark.parametrize(("cells", "digits"), [(2, 9), (3, 6), (4, 4)])
def test_a_line_has_a_window_for_each_least_digit_and_all_orders_of_it(cells, digits):
    answers = list(plain_answers([every_digit(digits)] * cells, [Renban(tuple(range(cells)))]))
    assert len(answers) == (digits - cells + 1) * factorial(cells)


def test_only_consecutive_digits_hold_and_in_any_order():
    line = Renban((0, 1, 2, 3))
    assert all(line.holds(grid) for grid in permutations((4, 5, 6, 7)))
    assert not line.holds((4, 5, 6, 8))
    assert not line.holds((4, 5, 5, 6))


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # A placed digit draws a window about itself.
        (["1", "123456789", "123456789"], ["1", "23", "23"]),
        (["5", "123456789", "123456789"], ["5", "3467", "3467"]),
        # Every window of six among nine holds a 4: here one cell is left for it.
        (["12356789"] * 5 + ["47"], ["12356789"] * 5 + ["4"]),
        # The 5 has a cell of its own, so no window from 5 on can be filled.
        (["15", "28", "37", "46", "5"], ["1", "2", "3", "4", "5"]),
    ],
)
def test_strikes(before, after):
    pencil = masks(*before)
    assert propagate([Renban(tuple(range(len(pencil))))], pencil)
    assert left(pencil) == after


def test_no_window_left():
    assert not propagate([Renban((0, 1, 2))], masks("1", "5", "123456789"))


def test_as_many_cells_as_digits_is_the_longest():
    assert puzzle_from_text(HEAD + "    - r1c1 2s e 2n\n", "r.yaml")
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(HEAD + "    - r1c1 3s e 2n\n    - r6c6\n", "r.yaml")
    assert [str(problem) for problem in refused.value.problems] == [
        "r.yaml:5:7: found a path of 7 cells, expected at most 6, as many as there are digits",
        "r.yaml:6:7: found a path of one cell, expected two cells or more",
    ]


def test_it_is_drawn_as_one_trail_each():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 e\n    - r2c1 e\n", "r.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["renban"])
    assert use.marks(puzzle.board) == (Trail("renban", ((0, 1),)), Trail("renban", ((6, 7),)))
