"""Sums on corners, for the tests."""

from hypothesis import strategies as st

from tests.support.rules.quad import corners
from verify.rules.sum_quad import SumQuad


def mark(draw, board):
    found = corners(board)
    cells = draw(st.sampled_from(found)) if found else tuple(board.cells)[:4]
    total = draw(st.integers(len(cells), len(cells) * board.digits))
    return SumQuad(cells, total, board.digits)


def _model(model, at, rule):
    model.add(sum(at[cell] for cell in rule.cells) == rule.total)


MODELS = {SumQuad: _model}


def sow(board, answer, dice):
    every = corners(board)
    return tuple(
        SumQuad(cells, sum(answer[cell] for cell in cells), board.digits)
        for cells in dice.sample(every, len(every) // 3)
    )
