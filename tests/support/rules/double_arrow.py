"""Double arrows, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.lines.double_arrow import DoubleArrow


def mark(draw, board):
    return DoubleArrow(walk(draw, board, 7, least=3))


def _model(model, at, rule):
    ends = at[rule.cells[0]] + at[rule.cells[-1]]
    model.add(sum(at[cell] for cell in rule.cells) == 2 * ends)


MODELS = {DoubleArrow: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: DoubleArrow(path).holds(answer), (3, 3), 10)
    return tuple(map(DoubleArrow, paths))
