"""Parity lines, for the tests."""

from itertools import pairwise

from tests.support.paths import sown_paths, walk
from verify.rules.lines.parity_line import ParityLine


def mark(draw, board):
    return ParityLine(walk(draw, board, 6))


def _model(model, at, rule):
    for one, other in pairwise(rule.cells):
        halves = model.new_int_var(0, 25, "")
        model.add(at[one] + at[other] == 2 * halves + 1)


MODELS = {ParityLine: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: ParityLine(path).holds(answer), (3, 8), 9)
    return tuple(map(ParityLine, paths))
