"""Which cells make a disjoint group, and which boards have none."""

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.reading.problems import Unreadable
from verify.rules.houses import disjoint_groups


def test_a_group_has_one_cell_of_each_box():
    board = plain(6, (2, 3)).board
    groups = [[board.name(cell) for cell in each.cells] for each in disjoint_groups.of_board(board)]
    assert groups[0] == ["r1c1", "r1c4", "r3c1", "r3c4", "r5c1", "r5c4"]
    assert groups[5] == ["r2c3", "r2c6", "r4c3", "r4c6", "r6c3", "r6c6"]


@pytest.mark.parametrize(("size", "box"), [(6, (2, 3)), (9, (3, 3)), (12, (3, 4))])
def test_groups_part_the_board_into_houses(size, box):
    groups = disjoint_groups.of_board(plain(size, box).board)
    assert [len(group.cells) for group in groups] == [size] * size
    assert sorted(cell for group in groups for cell in group.cells) == list(range(size * size))


REGIONS = "kind: sudoku\nsize: 4\nrules:\n  regions: |\n    AABB\n    AABB\n    CCDD\n    CCDD\n"


@pytest.mark.parametrize("board", ["kind: latin\nsize: 6\nrules:\n", REGIONS])
def test_a_board_without_boxes_has_none(board):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(f"{board}  disjoint-groups: true\n", "a.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (board.count("\n") + 1, 20)
    assert "expected a board with boxes" in problem.message


def test_false_is_no_way_to_leave_it_out():
    with pytest.raises(Unreadable, match="leave the rule out"):
        puzzle_from_text("kind: sudoku\nsize: 4\nrules:\n  disjoint-groups: false\n", "a.yaml")
