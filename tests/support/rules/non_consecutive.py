"""Neighbours that are never consecutive, for the tests."""

from hypothesis import strategies as st

from verify.rules.cells import non_consecutive
from verify.rules.cells.non_consecutive import NonConsecutive


def mark(draw, board):
    return draw(st.sampled_from(non_consecutive.of_board(board)))


def _model(model, at, rule):
    first, *others = rule.cells
    for other in others:
        model.add(at[first] - at[other] != 1)
        model.add(at[other] - at[first] != 1)


MODELS = {NonConsecutive: _model}


def before(board, dice):
    """On larger boards three cells in four, for random answers under all of them are dear."""
    every = non_consecutive.of_board(board)
    return every if board.digits <= 6 else tuple(dice.sample(every, len(every) * 3 // 4))
