"""Windows, for the tests; on boards other than 9x9 any cells stand for one."""

from tests.support.paths import random_blob, walks
from verify.rules.houses import windows
from verify.rules.workings.distinct import Distinct


def mark(draw, board):
    return Distinct("window", draw(walks(board, 2, board.digits)))


def _distinct(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)


MODELS = {Distinct: _distinct}


def before(board, dice):
    if board.boxes == windows.BOX:
        return windows.of_board(board)
    return (Distinct("window", random_blob(board, dice, board.digits)),)
