"""Disjoint groups, for the tests; on boards without boxes any cells stand for one."""

from tests.support.paths import walks
from verify.rules.houses import disjoint_groups
from verify.rules.workings.distinct import Distinct


def mark(draw, board):
    return Distinct("disjoint group", draw(walks(board, 2, board.digits)))


def _distinct(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)


MODELS = {Distinct: _distinct}


def before(board, dice):
    return disjoint_groups.of_board(board)
