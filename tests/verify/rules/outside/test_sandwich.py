"""What sandwiches can sum to, how they are read, and lines that make none."""

from itertools import permutations

import pytest

from verify.board import Outside
from verify.manifest.read import puzzle_from_text
from verify.marks import Clue
from verify.pencil import digits_of, every_digit
from verify.reading.problems import Unreadable
from verify.rules.outside.sandwich import RULE, Sandwich

LEFT = Outside(0, -1, "e")


def manifest(clue, size=6, kind="latin"):
    return f"kind: {kind}\nsize: {size}\nrules:\n  sandwich:\n    {clue}\n"


def sandwich(cells, total, largest):
    return Sandwich(tuple(range(cells)), LEFT, total, largest)


@pytest.mark.parametrize("size", [3, 4, 5, 6])
def test_the_bounds_are_the_least_and_largest_sums_of_all_lines(size):
    sums = set()
    for line in permutations(range(1, size + 1)):
        start, end = sorted((line.index(1), line.index(size)))
        sums.add(sum(line[start + 1 : end]))
    for total in (min(sums), max(sums)):
        assert puzzle_from_text(manifest(f"top c1: {total}", size), "s.yaml")
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(manifest(f"top c1: {max(sums) + 1}", size), "s.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (5, 13)
    assert f"from 0 to {max(sums)} as the sum of a sandwich" in problem.message


def test_a_line_of_one_cell_has_no_sandwich():
    with pytest.raises(Unreadable, match="two cells or more"):
        puzzle_from_text(manifest("top c1: 0", 1), "s.yaml")


def test_no_line_without_both_crusts_just_once_keeps_a_clue():
    assert sandwich(4, 3, 4).holds([1, 3, 4, 2])
    assert sandwich(4, 0, 4).holds([2, 4, 1, 3])
    for line in ([1, 3, 3, 2], [2, 3, 4, 2], [1, 3, 4, 1], [4, 3, 1, 4]):
        assert not sandwich(4, 3, 4).holds(line)


def test_the_largest_sum_puts_the_crusts_at_the_ends():
    pencil = [every_digit(9)] * 9
    left = dict.fromkeys(range(9), "123456789")
    for strike in sandwich(9, 55, 9).strikes(pencil):
        ((cell, mask),) = strike.removes
        left[cell] = "".join(map(str, digits_of(pencil[cell] & ~mask)))
    assert left == {0: "19", 8: "19"} | dict.fromkeys(range(1, 8), "78")


def test_a_sum_is_drawn_outside():
    puzzle = puzzle_from_text(RULE.example, "s.yaml")
    (use,) = [use for use in puzzle.uses if use.rule is RULE]
    assert RULE.draw(puzzle.board, use.constraints)[0] == Clue("outside", Outside(-1, 0, "s"), "6")
