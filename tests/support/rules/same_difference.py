"""Lines of one difference, for the tests."""

from itertools import pairwise

from tests.support.paths import sown_paths, walk
from verify.rules.lines.same_difference import SameDifference


def mark(draw, board):
    return SameDifference(walk(draw, board, 6, least=3))


def _model(model, at, rule):
    apart = model.new_int_var(0, 16, "")
    for one, other in pairwise(rule.cells):
        model.add_abs_equality(apart, at[one] - at[other])


MODELS = {SameDifference: _model}


def sow(board, answer, dice):
    def fits(path):
        return SameDifference(path).holds(answer)

    return tuple(map(SameDifference, sown_paths(board, dice, fits, (3, 6), 8)))
