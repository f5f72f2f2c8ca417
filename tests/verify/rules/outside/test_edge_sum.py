"""How edge sums are read and drawn."""

from itertools import permutations

import pytest

from verify.board import Outside
from verify.manifest.read import puzzle_from_text
from verify.marks import Clue
from verify.reading.problems import Unreadable
from verify.rules.outside.edge_sum import RULE

MANIFEST = (
    "kind: latin\nsize: 5\nrules:\n  edge-sum:\n    cells: {cells}\n    sums:\n      {sums}\n"
)


def read(cells, sums):
    return puzzle_from_text(MANIFEST.format(cells=cells, sums=sums), "e.yaml")


def problem(cells, sums):
    with pytest.raises(Unreadable) as refused:
        read(cells, sums)
    (only,) = refused.value.problems
    return only


def test_the_first_cells_are_those_nearest_to_the_sum():
    puzzle = read(3, "right r2: 9")
    (use,) = [use for use in puzzle.uses if use.rule is RULE]
    (only,) = use.constraints
    assert only.cells == (9, 8, 7)
    assert RULE.draw(puzzle.board, [only]) == (Clue("outside", Outside(1, 5, "w"), "9"),)
    assert use.sayings()[0].values == (("cells", "3"),)


@pytest.mark.parametrize("cells", [2, 3, 4, 5])
def test_the_bounds_are_the_least_and_largest_sums_of_all_lines(cells):
    sums = {sum(line[:cells]) for line in permutations(range(1, 6))}
    assert read(cells, f"{{top c1: {min(sums)}, top c2: {max(sums)}}}")
    for beyond in (min(sums) - 1, max(sums) + 1):
        found = problem(cells, f"top c1: {beyond}")
        assert (found.place.line, found.place.column) == (7, 15)
        assert f"the sum of {cells} cells" in found.message


@pytest.mark.parametrize("cells", [1, 6])
def test_one_cell_is_no_sum_and_no_line_is_longer_than_the_board(cells):
    found = problem(cells, "top c1: 6")
    assert (found.place.line, found.place.column) == (5, 12)
    assert "from 2 to 5 as the cells of an edge sum" in found.message


def test_a_missing_count_is_told():
    with pytest.raises(Unreadable, match='missing field "cells"'):
        puzzle_from_text("kind: latin\nsize: 5\nrules:\n  edge-sum: {sums: {top c1: 6}}\n", "e")
