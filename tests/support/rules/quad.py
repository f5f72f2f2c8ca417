"""Quads, for the tests."""

from collections import Counter

from hypothesis import strategies as st

from verify.rules.quad import Quad


def corners(board):
    """The four cells around each corner inside the board."""
    return [
        tuple(board.cell(row + down, column + right) for down in (0, 1) for right in (0, 1))
        for row in range(board.rows - 1)
        for column in range(board.columns - 1)
    ]


def mark(draw, board):
    found = corners(board)
    cells = draw(st.sampled_from(found)) if found else tuple(board.cells)[:4]
    wanted = draw(st.lists(st.integers(1, board.digits), min_size=1, max_size=4))
    return Quad(cells, tuple(sorted(wanted)))


def _model(model, at, rule):
    for digit, times in Counter(rule.wanted).items():
        equal = []
        for cell in rule.cells:
            is_it = model.new_bool_var("")
            model.add(at[cell] == digit).only_enforce_if(is_it)
            model.add(at[cell] != digit).only_enforce_if(~is_it)
            equal.append(is_it)
        model.add(sum(equal) >= times)


MODELS = {Quad: _model}


def sow(board, answer, dice):
    quads = []
    for cells in dice.sample(corners(board), len(corners(board)) // 4):
        wanted = dice.sample([answer[cell] for cell in cells], dice.randint(2, 4))
        quads.append(Quad(cells, tuple(sorted(wanted))))
    return tuple(quads)
