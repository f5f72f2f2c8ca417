"""Beyond lines, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.lines.beyond import Beyond


def mark(draw, board):
    """On fewer than six digits nothing keeps the mark, and all must say so."""
    return Beyond(walk(draw, board, 5, least=3))


def _model(model, at, rule):
    first, *inside, last = (at[cell] for cell in rule.cells)
    low, high = model.new_int_var(1, 25, ""), model.new_int_var(1, 25, "")
    model.add_min_equality(low, [first, last])
    model.add_max_equality(high, [first, last])
    model.add(high - low >= 4)
    for digit in inside:
        below = model.new_bool_var("")
        model.add(digit < low).only_enforce_if(below)
        model.add(digit >= low).only_enforce_if(~below)
        model.add(digit > high).only_enforce_if(~below)


MODELS = {Beyond: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: Beyond(path).holds(answer), (3, 5), 9)
    return tuple(map(Beyond, paths))
