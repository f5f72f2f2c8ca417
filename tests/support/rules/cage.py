"""Cages, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import random_blob, walks
from verify.rules.cells.cage import Cage
from verify.rules.workings.sums import largest_sum, least_sum


def mark(draw, board):
    cells = tuple(sorted(draw(walks(board, 1, board.digits))))
    low, high = least_sum(len(cells)), largest_sum(len(cells), board.digits)
    return Cage(cells, draw(st.none() | st.integers(low, high)), board.digits)


def _model(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)
    if rule.total is not None:
        model.add(sum(at[cell] for cell in rule.cells) == rule.total)


MODELS = {Cage: _model}


def sow(board, answer, dice):
    cages, taken = [], set()
    for _ in range(14):
        cells = random_blob(board, dice, dice.randint(2, 4), taken)
        inside = [answer[cell] for cell in cells]
        if len(cells) > 1 and len(set(inside)) == len(inside):
            taken.update(cells)
            cages.append(Cage(cells, sum(inside), board.digits))
    return tuple(cages)


WRITTEN = ("[{cells: r1c1 e}]",)
