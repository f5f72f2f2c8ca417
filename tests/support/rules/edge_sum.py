"""Edge sums, for the tests."""

from hypothesis import strategies as st

from tests.support.places import straight_line, straight_lines
from verify.rules.workings.outside_sum import OutsideSum


def mark(draw, board):
    line = straight_line(draw, board, 2)
    cells = line.cells[: draw(st.integers(2, len(line.cells)))]
    total = draw(st.integers(len(cells), len(cells) * board.digits))
    return OutsideSum(cells, line.outside, total)


def _model(model, at, rule):
    model.add(sum(at[cell] for cell in rule.cells) == rule.total)


MODELS = {OutsideSum: _model}


def sow(board, answer, dice):
    cells = [(line.outside, line.cells[:3]) for line in straight_lines(board)]
    return tuple(OutsideSum(at, outside, sum(answer[cell] for cell in at)) for outside, at in cells)
