"""Arrows, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import sown_paths, walk
from verify.rules.lines.arrow import Arrow


def mark(draw, board):
    path = walk(draw, board, 6)
    split = draw(st.integers(1, min(3, len(path) - 1)))
    return Arrow(path[:split], path[split:])


def _model(model, at, rule):
    number = 0
    for cell in rule.total:
        number = number * 10 + at[cell]
    model.add(sum(at[cell] for cell in rule.shaft) == number)


MODELS = {Arrow: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: Arrow(path[:1], path[1:]).holds(answer), (3, 4), 9)
    return tuple(Arrow(path[:1], path[1:]) for path in paths)
