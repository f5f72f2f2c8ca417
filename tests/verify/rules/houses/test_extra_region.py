"""Which groups can be an extra region, and how one is drawn."""

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.marks import Area
from verify.reading.problems import Unreadable
from verify.rules.houses import extra_region

START = "kind: sudoku\nsize: 6\nrules:\n  extra-region:\n"


def read(*groups):
    lines = "".join(f"    - {group}\n" for group in groups)
    return puzzle_from_text(START + lines, "a.yaml").uses[-1].constraints


def test_cells_need_not_hang_together():
    (region,) = read("r1c1 r3c3 r6c6")
    assert region.cells == (0, 14, 35)


def test_regions_may_share_cells_and_hold_as_many_as_there_are_digits():
    first, second = read("r1c1..r2c3", "[r1c1, r6c6]")
    assert len(first.cells) == 6
    assert second.cells == (0, 35)


@pytest.mark.parametrize(
    ("group", "found"),
    [
        ("[r1c1..r2c3, r3c1]", "an extra region of 7 cells"),
        ("r1c1..r2c4", "an extra region of 8 cells"),
        ("r4c4", "an extra region of 1 cell,"),
    ],
)
def test_a_region_too_large_or_too_small_is_refused_in_its_place(group, found):
    with pytest.raises(Unreadable) as refused:
        read("r1c1 e", group)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (6, 7)
    assert found in problem.message
    assert "from 2 to 6 cells" in problem.message


def test_every_problem_is_told():
    with pytest.raises(Unreadable) as refused:
        read("r1c1", "r9c9 n", "r2c2")
    assert [problem.place.line for problem in refused.value.problems] == [5, 6, 7]


def test_a_ground_is_drawn_behind_each():
    regions = read("r1c1 r3c3", "r5c5 e")
    assert extra_region.RULE.draw(plain(6).board, regions) == (
        Area("extra-region", (0, 14)),
        Area("extra-region", (28, 29)),
    )
    assert [saying.count for saying in extra_region.RULE.says(regions)] == [2]
