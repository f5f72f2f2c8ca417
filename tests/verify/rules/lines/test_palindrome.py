"""What palindromes leave, and which lines are refused."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import digits_of
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.palindrome import Palindrome

HEAD = "kind: blank\nsize: 4\nrules:\n  palindrome:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (["12", "123", "234", "345", "23"], ["2", "3", "234", "3", "2"]),
        (["12", "4", "23"], ["2", "4", "2"]),
        (["12", "123", "123", "13"], ["1", "123", "123", "1"]),
    ],
)
def test_mirror_cells_keep_what_both_have_and_the_middle_is_free(before, after):
    pencil = masks(*before)
    assert propagate([Palindrome(tuple(range(len(pencil))))], pencil)
    assert pencil == masks(*after)


def test_a_placed_digit_goes_to_the_far_end():
    pencil = masks("1234", "1234", "3")
    (strike,) = Palindrome((0, 1, 2)).strikes(pencil)
    assert strike.removes == ((0, sum(1 << digit for digit in (1, 2, 4))),)
    assert strike.because == (2,)
    assert list(digits_of(pencil[1])) == [1, 2, 3, 4]


def test_two_cells_are_a_palindrome_of_one_digit():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 se\n", "p.yaml")
    (line,) = puzzle.constraints()
    assert line.holds([3, 1, 1, 1, 1, 3])
    assert not line.holds([3, 1, 1, 1, 1, 2])


def test_one_cell_is_refused_at_its_place():
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(HEAD + "    - r1c1 se\n    - r3c3\n", "p.yaml")
    (problem,) = refused.value.problems
    assert str(problem) == "p.yaml:6:7: found a path of one cell, expected two cells or more"


def test_it_is_drawn_as_one_plain_trail():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2se\n", "p.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["palindrome"])
    assert use.marks(puzzle.board) == (Trail("palindrome", ((0, 5, 10),)),)
