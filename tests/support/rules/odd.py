"""Odd cells, for the tests."""

from hypothesis import strategies as st

from verify.rules.workings.parity import Parity


def mark(draw, board):
    return Parity((draw(st.sampled_from(board.cells)),), 1)


def _model(model, at, rule):
    for cell in rule.cells:
        model.add_modulo_equality(rule.remainder, at[cell], 2)


MODELS = {Parity: _model}


def sow(board, answer, dice):
    fitting = [cell for cell in board.cells if answer[cell] % 2 == 1]
    return tuple(Parity((cell,), 1) for cell in sorted(dice.sample(fitting, len(fitting) // 2)))
