"""Sums on edges, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import edge_pair
from verify.rules.neighbours import neighbours
from verify.rules.sum_mark import SumMark


def mark(draw, board):
    pair = tuple(sorted(edge_pair(draw, board)))
    shown = frozenset(draw(st.sets(st.integers(2, 2 * board.digits), max_size=3)))
    total = 0 if shown else draw(st.integers(2, 2 * board.digits))
    return SumMark(pair, total, shown, board.digits)


def _model(model, at, rule):
    one, other = (at[cell] for cell in rule.cells)
    if rule.total:
        model.add(one + other == rule.total)
    for total in rule.shown:
        model.add(one + other != total)


MODELS = {SumMark: _model}


def sow(board, answer, dice):
    """All fives and tens, and that there are no others."""
    usual, found = frozenset({5, 10}), []
    for one, other in neighbours(board):
        total = answer[one] + answer[other]
        if total in usual:
            found.append(SumMark((one, other), total, frozenset(), board.digits))
        else:
            found.append(SumMark((one, other), 0, usual, board.digits))
    return tuple(found)
