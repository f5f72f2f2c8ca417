"""Diagonal sums, for the tests."""

from hypothesis import strategies as st

from tests.support.outside import drawn_place, sown_clues
from verify.rules.diagonal_sum import DiagonalSum


def mark(draw, board):
    place, cells = drawn_place(draw, board, diagonal=True)
    total = draw(st.integers(len(cells), len(cells) * board.digits))
    return DiagonalSum(place, cells, total, board.digits)


def _model(model, at, rule):
    model.add(sum(at[cell] for cell in rule.cells) == rule.total)


MODELS = {DiagonalSum: _model}


def sow(board, answer, dice):
    def make(place, cells):
        if len(cells) < 2:
            return None
        return DiagonalSum(place, cells, sum(answer[cell] for cell in cells), board.digits)

    return sown_clues(board, dice, make, 0.35, diagonal=True)
