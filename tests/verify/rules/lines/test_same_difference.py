"""What lines of one difference leave, how many grids they have, and which are refused."""

import pytest

from tests.support.counting import formula_answers
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.same_difference import SameDifference

HEAD = "kind: blank\nsize: 4\nrules:\n  same-difference:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


@pytest.mark.parametrize(
    ("digits", "length", "grids"),
    # By hand. Of 3 digits: three lines of difference 0; steps of 1 go to the 2 and away by turns
    # (6 of three cells, 8 of four); steps of 2 swing between 1 and 3. Three of 16 digits: each
    # middle with itself twice; two ways for each of the 120 pairs; and two more for each of the
    # 56 pairs that stand on both sides of a middle.
    [(1, 3, 1), (2, 3, 4), (3, 3, 11), (3, 4, 13), (16, 3, 16 + 2 * 120 + 2 * 56)],
)
def test_there_are_as_many_grids_as_counted_by_hand(digits, length, grids):
    line = SameDifference(tuple(range(length)))
    found = formula_answers(digits, [every_digit(digits)] * length, [line])
    assert sum(1 for _ in found) == grids


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # A step of 3 is known at one end and told to the other.
        (["1", "4", "123456789", "123456789"], ["1", "4", "17", "4"]),
        # Steps of 0 are left only where every cell has the digit.
        (["5", "56", "6789", "6789"], ["5", "6", "7", "68"]),
        (["2", "123456789", "2", "13"], ["2", "13", "2", "13"]),
    ],
)
def test_what_is_left(before, after):
    pencil = masks(*before)
    assert propagate([SameDifference(tuple(range(len(pencil))))], pencil)
    assert pencil == masks(*after)


def test_no_difference_is_a_difference_too():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2e\n", "s.yaml")
    (line,) = puzzle.constraints()
    assert line.holds([3, 3, 3] + [1] * 13)
    assert line.holds([3, 2, 3] + [1] * 13)
    assert not line.holds([3, 3, 2] + [1] * 13)


def test_each_line_has_a_difference_of_its_own():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2e\n    - r2c1 2e\n", "s.yaml")
    grid = [1, 2, 3, 1] + [4, 1, 4, 1] + [1] * 8
    assert all(line.holds(grid) for line in puzzle.constraints())


def test_a_line_of_two_cells_says_nothing_and_is_refused():
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(HEAD + "    - r1c1 2e\n    - r2c1 e\n", "s.yaml")
    (problem,) = refused.value.problems
    assert str(problem) == "s.yaml:6:7: found a path of two cells, expected three cells or more"


def test_it_is_drawn_as_one_trail():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2e\n", "s.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["same-difference"])
    assert use.marks(puzzle.board) == (Trail("same-difference", ((0, 1, 2),)),)
