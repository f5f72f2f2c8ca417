"""What X-sums can be, which lines keep one, and what is read and drawn."""

from itertools import permutations

import pytest

from tests.support.counting import formula_answers
from verify.board import Outside
from verify.manifest.read import puzzle_from_text
from verify.marks import Clue
from verify.pencil import digits_of, every_digit
from verify.reading.problems import Unreadable
from verify.rules.outside.x_sum import RULE, XSum, largest_x_sum

LEFT = Outside(0, -1, "e")
MANIFEST = "kind: latin\nsize: {size}\nrules:\n  x-sum:\n    {clue}\n"


def sums_of_lines(cells, digits):
    lines = permutations(range(1, digits + 1), cells)
    return {sum(line[: line[0]]) for line in lines if line[0] <= cells}


@pytest.mark.parametrize("size", [1, 2, 3, 4, 5, 6])
def test_the_bounds_are_the_least_and_largest_sums_of_all_lines(size):
    sums = sums_of_lines(size, size)
    assert min(sums) == 1
    assert max(sums) == size * (size + 1) // 2
    for total in (min(sums), max(sums)):
        assert puzzle_from_text(MANIFEST.format(size=size, clue=f"top c1: {total}"), "x.yaml")
    for beyond in (0, max(sums) + 1):
        with pytest.raises(Unreadable) as refused:
            puzzle_from_text(MANIFEST.format(size=size, clue=f"top c1: {beyond}"), "x.yaml")
        (problem,) = refused.value.problems
        assert (problem.place.line, problem.place.column) == (5, 13)
        assert "as an X-sum" in problem.message


@pytest.mark.parametrize(("cells", "digits"), [(1, 4), (2, 6), (3, 4), (3, 6), (4, 6), (5, 6)])
def test_the_largest_sum_of_a_line_with_fewer_cells_than_digits(cells, digits):
    assert largest_x_sum(cells, digits) == max(sums_of_lines(cells, digits))


def test_every_line_of_different_digits_is_found_under_its_sum():
    pencil, line = [every_digit(5)] * 5, (0, 1, 2, 3, 4)
    for total in range(1, 16):
        found = formula_answers(5, pencil, [XSum(line, LEFT, total)], houses=[line])
        wanted = [each for each in permutations(range(1, 6)) if sum(each[: each[0]]) == total]
        assert sorted(found) == wanted


def test_a_count_past_the_end_of_the_line_does_not_keep_the_clue():
    assert XSum((0, 1), LEFT, 5).holds([2, 3])
    assert not XSum((0, 1), LEFT, 6).holds([3, 3])


def test_a_small_sum_leaves_few_counts():
    # 1 alone is 1; 2 + d is 7 for d = 5; 3 + 1 + 2 is 6, and 3 + 1 + 3 and 3 + 2 + 2 are 7 where
    # digits may repeat, as may 4 + 1 + 1 + 1.
    pencil = [every_digit(9)] * 9
    struck = {}
    for strike in XSum(tuple(range(9)), LEFT, 7).strikes(pencil):
        struck.update(strike.removes)
    left = {cell: list(digits_of(pencil[cell] & ~mask)) for cell, mask in struck.items()}
    assert left == {0: [2, 3, 4], 1: [1, 2, 3, 5]}


def test_a_sum_is_drawn_outside():
    puzzle = puzzle_from_text(MANIFEST.format(size=6, clue="right r3: 12"), "x.yaml")
    (use,) = [use for use in puzzle.uses if use.rule is RULE]
    assert RULE.draw(puzzle.board, use.constraints) == (Clue("outside", Outside(2, 6, "w"), "12"),)
