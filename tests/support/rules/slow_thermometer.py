"""Slow thermometers, for the tests."""

from itertools import pairwise

from tests.support.paths import sown_paths, walk
from verify.rules.lines.slow_thermometer import SlowThermometer


def mark(draw, board):
    return SlowThermometer(walk(draw, board, 6))


def _model(model, at, rule):
    for low, high in pairwise(rule.cells):
        model.add(at[low] <= at[high])


MODELS = {SlowThermometer: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: SlowThermometer(path).holds(answer), (3, 7), 8)
    return tuple(map(SlowThermometer, paths))


WRITTEN = ("[r1c1 e e, r1c1 s]",)
