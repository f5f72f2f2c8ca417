"""X-sums, for the tests."""

from hypothesis import strategies as st

from tests.support.places import straight_line, straight_lines
from verify.rules.outside.x_sum import XSum


def mark(draw, board):
    line = straight_line(draw, board)
    most = len(line.cells) * board.digits
    return XSum(line.cells, line.outside, draw(st.integers(1, most)))


def _model(model, at, rule):
    """One count of cells is the right one: it stands first, and so many cells have the sum."""
    counts = [model.new_bool_var("") for _ in rule.cells]
    model.add_exactly_one(counts)
    for count, right in enumerate(counts, start=1):
        model.add(at[rule.cells[0]] == count).only_enforce_if(right)
        model.add(sum(at[cell] for cell in rule.cells[:count]) == rule.total).only_enforce_if(right)


MODELS = {XSum: _model}


def sow(board, answer, dice):
    sums = []
    for line in straight_lines(board):
        digits = [answer[cell] for cell in line.cells]
        sums.append(XSum(line.cells, line.outside, sum(digits[: digits[0]])))
    return tuple(sums)
