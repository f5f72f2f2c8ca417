"""Lines between two ends, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.between import Between


def mark(draw, board):
    return Between(walk(draw, board, 6, 3))


def _model(model, at, rule):
    ends = [at[rule.cells[0]], at[rule.cells[-1]]]
    low, high = model.new_int_var(1, 99, ""), model.new_int_var(1, 99, "")
    model.add_min_equality(low, ends)
    model.add_max_equality(high, ends)
    for cell in rule.cells[1:-1]:
        model.add(at[cell] > low)
        model.add(at[cell] < high)


MODELS = {Between: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: Between(path).holds(answer), (3, 7), 8)
    return tuple(Between(path) for path in paths)
