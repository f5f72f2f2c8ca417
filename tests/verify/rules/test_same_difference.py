"""Lines of one difference: their problems, and how many there are."""

from itertools import product

import pytest

from tests.support.counting import formula_answers
from verify.manifest.read import puzzle_from_text
from verify.pencil import digits_of, every_digit
from verify.reading.problems import Unreadable
from verify.rules.same_difference import SameDifference

MANIFEST = "kind: sudoku\nsize: 9\nrules:\n  same-difference:\n    - {path}\n"


@pytest.mark.parametrize("length", [3, 4, 5])
def test_as_many_lines_as_there_are_walks_by_one_step(length):
    # By hand: after the first digit each step goes up or down by the one difference.
    wanted = {
        line
        for first, difference in product(range(1, 6), range(5))
        for ways in product((-1, 1), repeat=length - 1)
        for line in [tuple(first + difference * sum(ways[:at]) for at in range(length))]
        if all(1 <= digit <= 5 for digit in line)
    }
    cells = tuple(range(length))
    found = formula_answers(5, [every_digit(5)] * length, [SameDifference(cells)])
    assert set(found) == wanted


def test_a_known_step_leaves_little():
    pencil = [every_digit(9)] * 4
    pencil[0], pencil[1] = 1 << 1, 1 << 5
    left = list(pencil)
    for strike in SameDifference((0, 1, 2, 3)).strikes(pencil):
        for cell, mask in strike.removes:
            left[cell] &= ~mask
    assert [list(digits_of(mask)) for mask in left] == [[1], [5], [1, 9], [5]]


def test_two_cells_say_nothing():
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(MANIFEST.format(path="r1c1 e"), "a.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (5, 7)
    assert "three cells or more" in problem.message
