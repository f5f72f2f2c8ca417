"""Digits that move like queens, for the tests; where no diagonal is, any cells stand for one."""

from hypothesis import strategies as st

from tests.support.paths import walks
from verify.rules.houses.anti_queen import AntiQueen, diagonals


def mark(draw, board):
    every = list(diagonals(board))
    cells = draw(st.sampled_from(every) | walks(board, 2, 4) if every else walks(board, 2, 4))
    chosen = draw(st.sets(st.integers(1, board.digits), min_size=1))
    return AntiQueen(cells, sum(1 << digit for digit in chosen))


def _model(model, at, rule):
    for digit in range(1, rule.chosen.bit_length()):
        if not rule.chosen >> digit & 1:
            continue
        queens = []
        for cell in rule.cells:
            queen = model.new_bool_var("")
            model.add(at[cell] == digit).only_enforce_if(queen)
            model.add(at[cell] != digit).only_enforce_if(~queen)
            queens.append(queen)
        model.add_at_most_one(queens)


MODELS = {AntiQueen: _model}


def before(board, dice):
    size = board.digits
    digits = dice.sample(range(1, size + 1), max(1, size // 4))
    chosen = sum(1 << digit for digit in digits)
    return tuple(AntiQueen(cells, chosen) for cells in diagonals(board))
