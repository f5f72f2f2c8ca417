"""Crests, for the tests."""

from itertools import pairwise

from tests.support.paths import sown_paths, walk
from verify.rules.lines.crest import Crest


def mark(draw, board):
    return Crest(walk(draw, board, 6, least=3))


def _model(model, at, rule):
    """Just one of the cells between the ends is the top; each step rises before it, or falls."""
    tops = [model.new_bool_var("") for _ in rule.cells[1:-1]]
    model.add_exactly_one(tops)
    for step, (one, other) in enumerate(pairwise(rule.cells)):
        for index, top in enumerate(tops, start=1):
            rises = at[one] < at[other] if step < index else at[one] > at[other]
            model.add(rises).only_enforce_if(top)


MODELS = {Crest: _model}


def sow(board, answer, dice):
    def keeps(path):
        return Crest(path).holds(answer)

    return tuple(map(Crest, sown_paths(board, dice, keeps, (3, 6), 8)))
