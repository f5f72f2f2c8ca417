"""Renban lines, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.lines.renban import Renban


def mark(draw, board):
    return Renban(walk(draw, board, board.digits))


def _model(model, at, rule):
    digits = [at[cell] for cell in rule.cells]
    least, most = model.new_int_var(1, 25, ""), model.new_int_var(1, 25, "")
    model.add_all_different(digits)
    model.add_min_equality(least, digits)
    model.add_max_equality(most, digits)
    model.add(most - least == len(digits) - 1)


MODELS = {Renban: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: Renban(path).holds(answer), (3, 6), 9)
    return tuple(map(Renban, paths))
