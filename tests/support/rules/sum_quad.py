"""Sums on corners, for the tests."""

from hypothesis import assume
from hypothesis import strategies as st

from tests.support.rules.quad import corners
from verify.rules.cells.sum_quad import SumQuad


def mark(draw, board):
    found = corners(board)
    assume(found)
    return SumQuad(draw(st.sampled_from(found)), draw(st.integers(4, 4 * board.digits)))


def _model(model, at, rule):
    model.add(sum(at[cell] for cell in rule.cells) == rule.total)


MODELS = {SumQuad: _model}


def sow(board, answer, dice):
    found = corners(board)
    return tuple(
        SumQuad(corner, sum(answer[cell] for cell in corner))
        for corner in sorted(dice.sample(found, len(found) // 2))
    )
