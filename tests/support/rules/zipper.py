"""Zippers, for the tests."""

from hypothesis import assume

from tests.support.paths import sown_paths, walk
from verify.rules.lines.zipper import Zipper


def mark(draw, board):
    cells = walk(draw, board, 7, least=3)
    cells = cells[: len(cells) - (len(cells) + 1) % 2]
    assume(len(cells) > 2)
    return Zipper(cells)


def _model(model, at, rule):
    middle = len(rule.cells) // 2
    for index in range(middle):
        mirror = len(rule.cells) - 1 - index
        model.add(at[rule.cells[index]] + at[rule.cells[mirror]] == at[rule.cells[middle]])


MODELS = {Zipper: _model}


def sow(board, answer, dice):
    def fits(path):
        return len(path) % 2 == 1 and Zipper(path).holds(answer)

    return tuple(map(Zipper, sown_paths(board, dice, fits, (3, 5), 9)))
