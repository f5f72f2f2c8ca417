"""Diagonal sums, for the tests."""

from hypothesis import strategies as st

from tests.support.places import diagonal_lines
from tests.support.rules.edge_sum import MODELS as MODELS
from verify.rules.workings.outside_sum import OutsideSum


def mark(draw, board):
    line = draw(st.sampled_from(diagonal_lines(board)))
    length = len(line.cells)
    return OutsideSum(line.cells, line.outside, draw(st.integers(length, length * board.digits)))


def sow(board, answer, dice):
    lines = dice.sample(diagonal_lines(board), 2 * board.rows)
    sums = [(line, sum(answer[cell] for cell in line.cells)) for line in lines]
    return tuple(OutsideSum(line.cells, line.outside, total) for line, total in sums)
