"""Lines of remainders, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.modular_line import ModularLine


def mark(draw, board):
    return ModularLine(walk(draw, board, 6, 3), board.digits)


def _model(model, at, rule):
    rests = []
    for cell in rule.cells:
        rest = model.new_int_var(0, 2, "")
        model.add_modulo_equality(rest, at[cell], 3)
        rests.append(rest)
    for start in range(len(rests) - 2):
        model.add_all_different(rests[start : start + 3])


MODELS = {ModularLine: _model}


def sow(board, answer, dice):
    paths = sown_paths(
        board, dice, lambda path: ModularLine(path, board.digits).holds(answer), (3, 6), 8
    )
    return tuple(ModularLine(path, board.digits) for path in paths)
