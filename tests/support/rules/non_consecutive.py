"""Neighbours that are not consecutive, for the tests."""

from hypothesis import strategies as st

from verify.rules.non_consecutive import NonConsecutive, of_board


def mark(draw, board):
    return draw(st.sampled_from(of_board(board)))


def _model(model, at, rule):
    first, *others = (at[cell] for cell in rule.cells)
    for other in others:
        apart = model.new_int_var(0, rule.digits, "")
        model.add_abs_equality(apart, first - other)
        model.add(apart != 1)


MODELS = {NonConsecutive: _model}


def before(board, dice):
    return of_board(board)
