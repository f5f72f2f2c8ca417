"""The gallery: a puzzle for every rule, each proved, and each drawn in every style."""

from pathlib import Path

import pytest

from layout.board.board import draw_board
from layout.style.style import read_style, shipped_style_names
from tests.support.checkout import BOOKS
from verify.manifest.read import read_puzzle
from verify.proof.verdict import prove
from verify.rules import RULES

FOLDER = BOOKS / "gallery"
FILES = sorted(FOLDER.glob("puzzles/*/*.yaml"))
EVERY_PUZZLE = pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)


@EVERY_PUZZLE
def test_each_puzzle_has_one_answer(path: Path) -> None:
    assert prove(read_puzzle(path)).word == "one"


def test_every_rule_of_the_catalogue_is_shown() -> None:
    used = {use.rule.name for path in FILES for use in read_puzzle(path).uses}
    assert used == {rule.name for rule in RULES}


def test_boards_of_every_kind_are_shown() -> None:
    boards = [read_puzzle(path).board for path in FILES]
    assert any(len(board.grids) == 5 for board in boards)
    assert any(board.absent and not board.grids for board in boards)
    assert {board.digits for board in boards} >= {6, 7, 9, 12, 16}


@EVERY_PUZZLE
def test_it_can_be_drawn_in_every_style(path: Path) -> None:
    puzzle = read_puzzle(path)
    for name in shipped_style_names():
        picture = draw_board(puzzle, read_style(name).board, 120)
        assert picture.width == pytest.approx(120)
        assert picture.items


def test_titles_are_told_apart() -> None:
    titles = [read_puzzle(path).title for path in FILES]
    assert len(set(titles)) == len(titles)
