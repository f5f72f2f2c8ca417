"""Where windows lie, and which boards have none."""

import pytest

from tests.support import maker
from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.marks import Area
from verify.reading.problems import Unreadable
from verify.rule import Use
from verify.rules.houses import windows


def test_windows_are_the_inner_squares_one_cell_apart():
    board = plain(9, (3, 3)).board
    names = [[board.name(cell) for cell in window.cells] for window in windows.of_board(board)]
    assert [(window[0], window[-1]) for window in names] == [
        ("r2c2", "r4c4"),
        ("r2c6", "r4c8"),
        ("r6c2", "r8c4"),
        ("r6c6", "r8c8"),
    ]


def test_cells_beside_the_windows_make_houses_too():
    """Rows 2 to 4 hold each digit three times, two windows twice: what is left holds it once."""
    ground = plain(9, (3, 3))
    marks = windows.of_board(ground.board)
    made = maker.make(plain(9, (3, 3), (), Use(windows.RULE, marks)), seed=1)
    (answer,) = maker.answers(made)
    beside = [ground.board.cell(row, column) for row in (1, 2, 3) for column in (0, 4, 8)]
    corners = [ground.board.cell(row, column) for row in (0, 4, 8) for column in (0, 4, 8)]
    for hidden in (beside, corners):
        assert sorted(answer[cell] for cell in hidden) == list(range(1, 10))


def test_a_ground_is_drawn_behind_each():
    board = plain(9, (3, 3)).board
    marks = windows.RULE.draw(board, windows.of_board(board))
    assert [type(mark) for mark in marks] == [Area] * 4
    assert {(mark.role, mark.label) for mark in marks} == {("window", "")}


@pytest.mark.parametrize(
    ("board", "found"),
    [
        ("kind: sudoku\nsize: 6", "boxes of 2x3"),
        ("kind: latin\nsize: 9", "a board without boxes"),
        ("kind: latin\nsize: 6", "a board without boxes"),
        ("kind: sudoku\nsize: 16", "boxes of 4x4"),
    ],
)
def test_other_boards_have_none(board, found):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(f"{board}\nrules:\n  windows: true\n", "a.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (4, 12)
    assert f"found windows on {found}" in problem.message
