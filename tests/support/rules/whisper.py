"""Whispers, for the tests."""

from itertools import pairwise

from hypothesis import strategies as st

from tests.support.paths import sown_paths, walk
from verify.rules.whisper import Whisper


def mark(draw, board):
    gap = draw(st.integers(1, board.digits - 1))
    return Whisper(walk(draw, board, 6), gap, board.digits)


def _model(model, at, rule):
    for one, other in pairwise(rule.cells):
        apart = model.new_int_var(rule.gap, rule.digits, "")
        model.add_abs_equality(apart, at[one] - at[other])


MODELS = {Whisper: _model}


def sow(board, answer, dice):
    gap = (board.digits + 1) // 2
    paths = sown_paths(
        board, dice, lambda path: Whisper(path, gap, board.digits).holds(answer), (3, 6), 9
    )
    return tuple(Whisper(path, gap, board.digits) for path in paths)
