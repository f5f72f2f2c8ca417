"""Inequality signs, for the tests."""

from tests.support.paths import around, edge_pair
from verify.rules.cells.greater import Greater


def mark(draw, board):
    return Greater(edge_pair(draw, board))


def _model(model, at, rule):
    model.add(at[rule.cells[0]] > at[rule.cells[1]])


MODELS = {Greater: _model}


def sow(board, answer, dice):
    pairs = [
        (one, other)
        for one in board.cells
        for other in around(board, one, edges=True)
        if answer[one] > answer[other]
    ]
    return tuple(map(Greater, dice.sample(pairs, len(pairs) // 3)))
