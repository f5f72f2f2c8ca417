"""Even cells, for the tests."""

from hypothesis import strategies as st

from verify.rules.workings.parity import Parity


def mark(draw, board):
    return Parity((draw(st.sampled_from(board.cells)),), 0)


def _model(model, at, rule):
    for cell in rule.cells:
        model.add_modulo_equality(rule.remainder, at[cell], 2)


MODELS = {Parity: _model}


def sow(board, answer, dice):
    fitting = [cell for cell in board.cells if answer[cell] % 2 == 0]
    return tuple(Parity((cell,), 0) for cell in sorted(dice.sample(fitting, len(fitting) // 2)))
