"""Arrows outside, for the tests."""

from itertools import pairwise

from hypothesis import strategies as st

from tests.support.places import straight_line, straight_lines
from verify.rules.outside.outside_arrow import OutsideArrow
from verify.rules.workings.outside_clues import first_box


def mark(draw, board):
    line = straight_line(draw, board, 2)
    cells = line.cells[: draw(st.integers(2, len(line.cells)))]
    return OutsideArrow(cells, line.outside, draw(st.booleans()))


def _model(model, at, rule):
    for before, after in pairwise(rule.cells):
        model.add(at[before] < at[after] if rule.rises else at[before] > at[after])


MODELS = {OutsideArrow: _model}


def sow(board, answer, dice):
    arrows = []
    for line in straight_lines(board):
        cells = first_box(line, board)
        digits = [answer[cell] for cell in cells]
        for rises in (True, False):
            if digits == sorted(digits, reverse=not rises):
                arrows.append(OutsideArrow(cells, line.outside, rises))
    return tuple(arrows)
