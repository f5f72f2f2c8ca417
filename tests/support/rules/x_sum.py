"""Counted sums, for the tests."""

from hypothesis import strategies as st

from tests.support.outside import drawn_place, sown_clues
from verify.rules.x_sum import XSum


def mark(draw, board):
    place, cells = drawn_place(draw, board)
    return XSum(place, cells, draw(st.integers(1, 3 * board.digits)), board.digits)


def _model(model, at, rule):
    """The element of the line's running sums at the index that its first cell holds."""
    index = model.new_int_var(0, len(rule.cells) - 1, "")
    model.add(index == at[rule.cells[0]] - 1)
    sums = []
    for end in range(1, len(rule.cells) + 1):
        so_far = model.new_int_var(0, rule.digits * end, "")
        model.add(so_far == sum(at[cell] for cell in rule.cells[:end]))
        sums.append(so_far)
    model.add_element(index, sums, rule.number)


MODELS = {XSum: _model}


def sow(board, answer, dice):
    def make(place, cells):
        count = answer[cells[0]]
        return XSum(place, cells, sum(answer[cell] for cell in cells[:count]), board.digits)

    return sown_clues(board, dice, make)
