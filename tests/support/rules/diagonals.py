"""Long diagonals, for the tests."""

from hypothesis import strategies as st

from verify.board import Board
from verify.rules.houses.diagonals import falling, rising
from verify.rules.workings.distinct import Distinct


def mark(draw, board):
    square = Board(min(board.rows, board.columns), board.columns, board.digits)
    return draw(st.sampled_from([falling, rising]))(square)[0]


def _distinct(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)


MODELS = {Distinct: _distinct}


def before(board, dice):
    return falling(board) + rising(board)


WRITTEN = ("falling", "rising")
