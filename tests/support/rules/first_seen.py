"""Digits seen first, for the tests."""

from hypothesis import strategies as st

from tests.support.places import straight_line, straight_lines
from verify.rules.outside.first_seen import FirstSeen
from verify.rules.workings.outside_clues import first_box


def mark(draw, board):
    line = straight_line(draw, board)
    cells = line.cells[: draw(st.integers(1, min(3, len(line.cells))))]
    digits = st.sets(st.integers(1, board.digits), min_size=1, max_size=len(cells))
    return FirstSeen(cells, line.outside, tuple(sorted(draw(digits))))


def _model(model, at, rule):
    for digit in rule.digits:
        there = [model.new_bool_var("") for _ in rule.cells]
        for cell, here in zip(rule.cells, there, strict=True):
            model.add(at[cell] == digit).only_enforce_if(here)
            model.add(at[cell] != digit).only_enforce_if(~here)
        model.add_bool_or(there)


MODELS = {FirstSeen: _model}


def sow(board, answer, dice):
    found = []
    for line in straight_lines(board):
        cells = first_box(line, board)
        digits = dice.sample([answer[cell] for cell in cells], dice.randint(1, len(cells)))
        found.append(FirstSeen(cells, line.outside, tuple(sorted(digits))))
    return tuple(found)
