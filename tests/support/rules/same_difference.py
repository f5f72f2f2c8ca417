"""Lines of one difference, for the tests."""

from itertools import pairwise

from tests.support.paths import sown_paths, walk
from verify.rules.same_difference import SameDifference


def mark(draw, board):
    return SameDifference(walk(draw, board, 6, 3))


def _model(model, at, rule):
    difference = model.new_int_var(0, 99, "")
    for one, other in pairwise(rule.cells):
        model.add_abs_equality(difference, at[one] - at[other])


MODELS = {SameDifference: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: SameDifference(path).holds(answer), (3, 5), 9)
    return tuple(map(SameDifference, paths))
