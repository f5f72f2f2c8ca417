"""Thermometers, for the tests."""

from itertools import pairwise

from tests.support.paths import sown_paths, walk
from verify.rules.lines.thermometer import Thermometer


def mark(draw, board):
    return Thermometer(walk(draw, board, board.digits))


def _model(model, at, rule):
    for low, high in pairwise(rule.cells):
        model.add(at[low] + 1 <= at[high])


MODELS = {Thermometer: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: Thermometer(path).holds(answer), (3, 7), 8)
    return tuple(map(Thermometer, paths))


WRITTEN = ("[r1c1 e e, r1c1 s]",)
