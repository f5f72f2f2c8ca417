"""Clones, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import random_blob
from verify.rules.clone import Clone


def mark(draw, board):
    cells = draw(st.lists(st.sampled_from(board.cells), unique=True, min_size=2, max_size=6))
    half = len(cells) // 2
    return Clone(tuple(cells[:half]), tuple(cells[half : 2 * half]))


def _model(model, at, rule):
    for one, other in zip(rule.one, rule.other, strict=True):
        model.add(at[one] == at[other])


MODELS = {Clone: _model}


def sow(board, answer, dice):
    clones, taken = [], set()
    for _ in range(6000):
        one = random_blob(board, dice, dice.randint(2, 4), taken)
        if len(one) < 2 or len(clones) == 5:
            continue
        down, right = dice.randrange(-5, 6), dice.randrange(-5, 6)
        places = [(r + down, c + right) for r, c in map(board.place, one)]
        if not all(board.holds(*place) for place in places):
            continue
        other = tuple(board.cell(*place) for place in places)
        clone = Clone(one, other)
        if not set(other) & (taken | set(one)) and clone.holds(answer):
            clones.append(clone)
            taken.update(clone.cells)
    return tuple(clones)
