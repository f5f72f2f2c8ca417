"""Quads, for the tests."""

from hypothesis import assume
from hypothesis import strategies as st

from verify.rules.cells.quad import Quad


def corners(board):
    """The four cells around each corner inside a board."""
    around = [(cell, *(board.step(cell, way) for way in ("e", "s", "se"))) for cell in board.cells]
    return [corner for corner in around if None not in corner]


def mark(draw, board):
    found = corners(board)
    assume(found)
    digits = draw(st.lists(st.integers(1, board.digits), min_size=1, max_size=4))
    return Quad(draw(st.sampled_from(found)), tuple(sorted(digits)))


def _model(model, at, rule):
    for digit in set(rule.digits):
        here = [model.new_bool_var("") for _ in rule.cells]
        for is_here, cell in zip(here, rule.cells, strict=True):
            model.add(at[cell] == digit).only_enforce_if(is_here)
            model.add(at[cell] != digit).only_enforce_if(~is_here)
        model.add(sum(here) >= rule.digits.count(digit))


MODELS = {Quad: _model}


def sow(board, answer, dice):
    found = corners(board)
    quads = []
    for corner in sorted(dice.sample(found, len(found) // 3)):
        digits = dice.sample([answer[cell] for cell in corner], dice.randint(1, 4))
        quads.append(Quad(corner, tuple(sorted(digits))))
    return tuple(quads)


WRITTEN = ("[{at: r1c1, digits: [1, 2, 3, 4]}]",)
