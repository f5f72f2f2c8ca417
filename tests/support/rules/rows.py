"""Rows, for the tests."""

from hypothesis import strategies as st

from verify.rules.houses import rows
from verify.rules.workings.distinct import Distinct


def mark(draw, board):
    return draw(st.sampled_from(rows.of_board(board)))


def _distinct(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)


MODELS = {Distinct: _distinct}


def before(board, dice):
    return rows.of_board(board)
