"""Modular lines, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.lines.modular_line import ModularLine


def mark(draw, board):
    return ModularLine(walk(draw, board, 7, least=3), board.digits)


def _model(model, at, rule):
    remainders = []
    for cell in rule.cells:
        remainder = model.new_int_var(0, 2, "")
        model.add_modulo_equality(remainder, at[cell], 3)
        remainders.append(remainder)
    for index in range(len(remainders) - 2):
        model.add_all_different(remainders[index : index + 3])


MODELS = {ModularLine: _model}


def sow(board, answer, dice):
    def fits(path):
        return ModularLine(path, board.digits).holds(answer)

    paths = sown_paths(board, dice, fits, (4, 8), 8)
    return tuple(ModularLine(path, board.digits) for path in paths)
