"""Between lines, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.lines.between import Between


def mark(draw, board):
    return Between(walk(draw, board, 5, least=3))


def _model(model, at, rule):
    first, *inside, last = (at[cell] for cell in rule.cells)
    low, high = model.new_int_var(1, 25, ""), model.new_int_var(1, 25, "")
    model.add_min_equality(low, [first, last])
    model.add_max_equality(high, [first, last])
    for digit in inside:
        model.add(low < digit)
        model.add(digit < high)


MODELS = {Between: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: Between(path).holds(answer), (3, 6), 9)
    return tuple(map(Between, paths))
