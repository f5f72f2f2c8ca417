"""Boxes, for the tests."""

from tests.support.paths import walks
from verify.rules.houses import boxes
from verify.rules.workings.distinct import Distinct


def mark(draw, board):
    return Distinct("box", draw(walks(board, 2, board.digits)))


def _distinct(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)


MODELS = {Distinct: _distinct}


def before(board, dice):
    return boxes.of_board(board)
