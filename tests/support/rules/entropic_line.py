"""Lines of low, middle and high, for the tests."""

from hypothesis import assume

from tests.support.paths import sown_paths, walk
from verify.rules.entropic_line import EntropicLine


def mark(draw, board):
    assume(board.digits % 3 == 0)
    return EntropicLine(walk(draw, board, 6, 3), board.digits)


def _model(model, at, rule):
    third = rule.digits // 3
    kinds = []
    for cell in rule.cells:
        kind = model.new_int_var(0, 2, "")
        model.add_division_equality(kind, at[cell] - 1, third)
        kinds.append(kind)
    for start in range(len(kinds) - 2):
        model.add_all_different(kinds[start : start + 3])


MODELS = {EntropicLine: _model}


def sow(board, answer, dice):
    paths = sown_paths(
        board, dice, lambda path: EntropicLine(path, board.digits).holds(answer), (3, 6), 8
    )
    return tuple(EntropicLine(path, board.digits) for path in paths)
