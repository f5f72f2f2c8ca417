"""Cells that are smaller than those around, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import around
from verify.rules.workings.extremes import Extreme


def mark(draw, board):
    cell = draw(st.sampled_from(board.cells))
    near = around(board, cell, edges=True)
    others = draw(st.lists(st.sampled_from(near), unique=True))
    return Extreme((cell, *sorted(others)), True)


def _model(model, at, rule):
    first, *others = (at[cell] for cell in rule.cells)
    for other in others:
        model.add(first < other if rule.is_least else first > other)


MODELS = {Extreme: _model}


def sow(board, answer, dice):
    found = []
    for cell in board.cells:
        near = tuple(around(board, cell, edges=True))
        if all(answer[cell] < answer[other] for other in near):
            found.append(Extreme((cell, *near), True))
    return tuple(found)
