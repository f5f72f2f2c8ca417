"""Entropic lines, for the tests."""

from hypothesis import assume

from tests.support.paths import sown_paths, walk
from verify.rules.lines.entropic_line import EntropicLine


def mark(draw, board):
    assume(board.digits % 3 == 0)
    return EntropicLine(walk(draw, board, 7, least=3), board.digits)


def _model(model, at, rule):
    thirds = []
    for cell in rule.cells:
        third = model.new_int_var(0, 2, "")
        model.add_division_equality(third, at[cell] - 1, rule.digits // 3)
        thirds.append(third)
    for index in range(len(thirds) - 2):
        model.add_all_different(thirds[index : index + 3])


MODELS = {EntropicLine: _model}


def sow(board, answer, dice):
    def fits(path):
        return EntropicLine(path, board.digits).holds(answer)

    paths = sown_paths(board, dice, fits, (4, 8), 8)
    return tuple(EntropicLine(path, board.digits) for path in paths)
