"""A knight's moves, for the tests; on boards too small for any, some cells stand for them."""

from hypothesis import strategies as st

from verify.rules.houses import anti_knight
from verify.rules.workings.apart import Apart


def mark(draw, board):
    anywhere = st.lists(st.sampled_from(board.cells), min_size=2, max_size=5, unique=True)
    leaps = anti_knight.of_board(board)
    star = anywhere.map(lambda cells: Apart(tuple(cells)))
    return draw(st.sampled_from(leaps) | star if leaps else star)


def _model(model, at, rule):
    first, *others = rule.cells
    for other in others:
        model.add(at[first] != at[other])


MODELS = {Apart: _model}


def before(board, dice):
    return anti_knight.of_board(board)
