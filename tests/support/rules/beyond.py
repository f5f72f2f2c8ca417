"""Lines beyond two ends, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.beyond import Beyond


def mark(draw, board):
    return Beyond(walk(draw, board, 6, 3), board.digits)


def _model(model, at, rule):
    ends = [at[rule.cells[0]], at[rule.cells[-1]]]
    low, high = model.new_int_var(1, 99, ""), model.new_int_var(1, 99, "")
    model.add_min_equality(low, ends)
    model.add_max_equality(high, ends)
    model.add(high - low >= 4)
    for cell in rule.cells[1:-1]:
        below = model.new_bool_var("")
        model.add(at[cell] < low).only_enforce_if(below)
        model.add(at[cell] > high).only_enforce_if(~below)


MODELS = {Beyond: _model}


def sow(board, answer, dice):
    paths = sown_paths(
        board, dice, lambda path: Beyond(path, board.digits).holds(answer), (3, 5), 8
    )
    return tuple(Beyond(path, board.digits) for path in paths)
