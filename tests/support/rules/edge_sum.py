"""Edge sums, for the tests."""

from hypothesis import strategies as st

from tests.support.outside import drawn_place, sown_clues
from verify.rules.edge_sum import EdgeSum


def mark(draw, board):
    place, cells = drawn_place(draw, board)
    cells = cells[: draw(st.integers(1, len(cells)))]
    total = draw(st.integers(len(cells), len(cells) * board.digits))
    return EdgeSum(place, cells, total, board.digits)


def _model(model, at, rule):
    model.add(sum(at[cell] for cell in rule.cells) == rule.total)


MODELS = {EdgeSum: _model}


def sow(board, answer, dice):
    def make(place, cells):
        cells = cells[: board.boxes[0]]
        return EdgeSum(place, cells, sum(answer[cell] for cell in cells), board.digits)

    return sown_clues(board, dice, make, 0.8)
