"""Which cells a diagonal counts, what is read, and what is drawn."""

import pytest

from tests.support.boards import plain
from verify.board import Outside
from verify.manifest.read import puzzle_from_text
from verify.marks import Clue
from verify.reading.problems import Unreadable
from verify.rules.outside.diagonal_sum import RULE

MANIFEST = "kind: latin\nsize: 5\nrules:\n  diagonal-sum:\n    {clue}\n"


def read(clue):
    puzzle = puzzle_from_text(MANIFEST.format(clue=clue), "d.yaml")
    (use,) = [use for use in puzzle.uses if use.rule is RULE]
    return use.constraints


def problem(clue):
    with pytest.raises(Unreadable) as refused:
        read(clue)
    (only,) = refused.value.problems
    return only


def test_the_first_cell_is_the_first_that_lies_on_the_line_from_outside():
    assert [each.cells for each in read("top c3 se: 4")] == [(3, 9)]
    assert [each.cells for each in read("left r4 ne: 9")] == [(10, 6, 2)]


def test_two_diagonals_may_leave_one_place():
    assert len(read("{top c3 se: 4, top c3 sw: 5}")) == 2


@pytest.mark.parametrize("total", [2, 16])
def test_a_sum_out_of_reach_is_refused(total):
    found = problem(f"left r4 ne: {total}")
    assert (found.place.line, found.place.column) == (5, 17)
    assert "from 3 to 15 as the sum of a diagonal" in found.message


def test_a_sum_that_only_equal_digits_make_is_read():
    assert read("{left r4 ne: 3, left r3 ne: 10}")


def test_a_place_without_a_direction_is_refused():
    found = problem("top c3: 6")
    assert (found.place.line, found.place.column) == (5, 9)
    assert "se or sw from the top" in found.message


def test_a_sum_is_drawn_with_its_direction():
    found = read("top c3 se: 4")
    assert RULE.draw(plain(5).board, found) == (Clue("diagonal", Outside(-1, 2, "se"), "4"),)
