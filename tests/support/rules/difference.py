"""Differences, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import edge_pair
from verify.rules.cells.difference import Difference
from verify.rules.workings.neighbours import neighbours


def mark(draw, board):
    by = draw(st.integers(1, board.digits - 1))
    return Difference(edge_pair(draw, board), by, board.digits)


def _model(model, at, rule):
    one, other = (at[cell] for cell in rule.cells)
    model.add_abs_equality(rule.by, one - other)


MODELS = {Difference: _model}


def sow(board, answer, dice):
    pairs = [(one, other) for one, other in neighbours(board) if answer[one] != answer[other]]
    return tuple(
        Difference((one, other), abs(answer[one] - answer[other]), board.digits)
        for one, other in sorted(dice.sample(pairs, len(pairs) // 3))
    )
