"""Lines of odd and even, for the tests."""

from itertools import pairwise

from tests.support.paths import sown_paths, walk
from verify.rules.parity_line import ParityLine


def mark(draw, board):
    return ParityLine(walk(draw, board, 6), board.digits)


def _model(model, at, rule):
    halves = []
    for cell in rule.cells:
        rest = model.new_int_var(0, 1, "")
        model.add_modulo_equality(rest, at[cell], 2)
        halves.append(rest)
    for here, there in pairwise(halves):
        model.add(here + there == 1)


MODELS = {ParityLine: _model}


def sow(board, answer, dice):
    paths = sown_paths(
        board, dice, lambda path: ParityLine(path, board.digits).holds(answer), (3, 6), 8
    )
    return tuple(ParityLine(path, board.digits) for path in paths)
