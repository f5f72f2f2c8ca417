"""How many are seen: counted lines, equal heights, and what is read."""

import pytest

from tests.support.counting import formula_answers
from verify.board import Outside
from verify.manifest.read import puzzle_from_text
from verify.marks import Clue
from verify.pencil import digits_of, every_digit
from verify.reading.problems import Unreadable
from verify.rules.outside.skyscraper import RULE, Skyscraper, draw

LEFT = Outside(0, -1, "e")
STIRLING = {
    3: [2, 3, 1],
    4: [6, 11, 6, 1],
    5: [24, 50, 35, 10, 1],
    6: [120, 274, 225, 85, 15, 1],
}
"""Permutations of n with k left-to-right maxima: the unsigned Stirling numbers of the first
kind c(n, k) (Rényi 1962)."""


def skyscraper(cells, seen):
    return Skyscraper(tuple(range(cells)), LEFT, seen)


@pytest.mark.parametrize(
    ("size", "seen"), [(size, seen) for size in STIRLING for seen in range(1, size + 1)]
)
def test_as_many_lines_as_stirling_numbers_say(size, seen):
    pencil, line = [every_digit(size)] * size, tuple(range(size))
    found = formula_answers(size, pencil, [skyscraper(size, seen)], houses=[line])
    assert len(list(found)) == STIRLING[size][seen - 1]


def test_one_of_the_same_height_is_hidden():
    assert skyscraper(4, 2).holds([2, 2, 3, 3])
    assert skyscraper(4, 1).holds([3, 3, 3, 3])


def test_all_seen_leaves_one_line():
    pencil = [every_digit(9)] * 9
    for strike in skyscraper(9, 9).strikes(pencil):
        ((cell, mask),) = strike.removes
        assert list(digits_of(pencil[cell] & ~mask)) == [cell + 1]


def manifest(clue):
    return f"kind: latin\nsize: 5\nrules:\n  skyscraper:\n    {clue}\n"


@pytest.mark.parametrize("count", [0, 6])
def test_none_and_more_than_the_line_holds_are_refused(count):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(manifest(f"right r2: {count}"), "s.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (5, 15)
    assert "from 1 to 5 as the count of a skyscraper clue" in problem.message


def test_two_counts_in_one_place_are_refused():
    with pytest.raises(Unreadable, match="one clue a place"):
        puzzle_from_text(manifest("top c1: 2\n    Top C1: 3"), "s.yaml")


def test_a_count_is_drawn_outside():
    puzzle = puzzle_from_text(manifest("bottom c2: 3"), "s.yaml")
    (use,) = [use for use in puzzle.uses if use.rule is RULE]
    assert draw(puzzle.board, use.constraints) == (Clue("outside", Outside(5, 1, "n"), "3"),)
