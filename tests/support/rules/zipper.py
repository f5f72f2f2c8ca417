"""Zippers, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.zipper import Zipper


def odd(path):
    return path if len(path) % 2 else path[:-1]


def mark(draw, board):
    return Zipper(odd(walk(draw, board, 7, 3)))


def _model(model, at, rule):
    half = len(rule.cells) // 2
    for step in range(1, half + 1):
        pair = at[rule.cells[half - step]] + at[rule.cells[half + step]]
        model.add(pair == at[rule.cells[half]])


MODELS = {Zipper: _model}


def sow(board, answer, dice):
    paths = sown_paths(
        board, dice, lambda path: len(path) % 2 == 1 and Zipper(path).holds(answer), (3, 5), 9
    )
    return tuple(Zipper(path) for path in paths)
