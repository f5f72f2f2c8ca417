"""Whispers, for the tests."""

from itertools import pairwise

from hypothesis import strategies as st

from tests.support.paths import sown_paths, walk
from verify.rules.lines.whisper import Whisper


def mark(draw, board):
    return Whisper(walk(draw, board, 6), draw(st.integers(1, board.digits - 1)))


def _model(model, at, rule):
    for one, other in pairwise(rule.cells):
        difference = model.new_int_var(rule.gap, 25, "")
        model.add_abs_equality(difference, at[one] - at[other])


MODELS = {Whisper: _model}


def sow(board, answer, dice):
    gap = board.digits // 2 + board.digits % 2
    paths = sown_paths(board, dice, lambda path: Whisper(path, gap).holds(answer), (3, 7), 9)
    return tuple(Whisper(path, gap) for path in paths)
