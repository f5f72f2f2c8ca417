"""Cages of one group, for the tests."""

from collections import defaultdict

from hypothesis import strategies as st

from tests.support.paths import random_blob, walk
from verify.rules.cells.equal_cages import EqualCages


def mark(draw, board):
    path = walk(draw, board, 7)
    inner = st.sampled_from(range(1, len(path)))
    cuts = sorted(draw(st.sets(inner, min_size=1, max_size=3)))
    parts = zip([0, *cuts], [*cuts, len(path)], strict=True)
    return EqualCages(tuple(tuple(sorted(path[start:end])) for start, end in parts))


def _model(model, at, rule):
    total = model.new_int_var(1, 999, "")
    for cage in rule.cages:
        model.add_all_different(at[cell] for cell in cage)
        model.add(sum(at[cell] for cell in cage) == total)


MODELS = {EqualCages: _model}


def sow(board, answer, dice):
    by_sum, taken = defaultdict(list), set()
    for _ in range(40):
        cells = random_blob(board, dice, dice.randint(2, 4), taken)
        inside = [answer[cell] for cell in cells]
        if len(cells) > 1 and len(set(inside)) == len(inside):
            taken.update(cells)
            by_sum[sum(inside)].append(cells)
    groups = [tuple(cages) for cages in by_sum.values() if len(cages) > 1]
    return tuple(EqualCages(cages) for cages in groups[:6])
