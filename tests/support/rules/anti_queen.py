"""Digits that never see themselves along a diagonal, for the tests."""

from hypothesis import assume
from hypothesis import strategies as st

from verify.rules.anti_queen import AntiQueen, of_board


def mark(draw, board):
    found = of_board(board, draw(st.integers(1, board.digits)))
    assume(found)
    return draw(st.sampled_from(found))


def _model(model, at, rule):
    equal = []
    for cell in rule.cells:
        is_it = model.new_bool_var("")
        model.add(at[cell] == rule.digit).only_enforce_if(is_it)
        model.add(at[cell] != rule.digit).only_enforce_if(~is_it)
        equal.append(is_it)
    model.add_at_most_one(equal)


MODELS = {AntiQueen: _model}


def before(board, dice):
    return of_board(board, board.digits) + of_board(board, board.digits - 1)
