"""Wrapped diagonals, for the tests."""

from hypothesis import strategies as st

from verify.rules.houses import toroidal
from verify.rules.workings.distinct import Distinct


def mark(draw, board):
    direction = draw(st.sampled_from([toroidal.falling, toroidal.rising]))
    return draw(st.sampled_from(direction(board)))


def _distinct(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)


MODELS = {Distinct: _distinct}


def before(board, dice):
    every = toroidal.falling(board)
    return every if board.rows % 2 else every[: board.rows // 3]


WRITTEN = ("falling", "rising")
