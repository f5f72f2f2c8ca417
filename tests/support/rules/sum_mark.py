"""Sums of neighbours, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import edge_pair
from verify.rules.cells.sum_mark import Marked, Unmarked
from verify.rules.workings.neighbours import neighbours


def mark(draw, board):
    sums = st.integers(2, 2 * board.digits)
    pair = edge_pair(draw, board)
    if draw(st.booleans()):
        return Marked(pair, draw(sums), board.digits)
    return Unmarked(pair, tuple(sorted(draw(st.sets(sums, max_size=3)))), board.digits)


def _marked(model, at, rule):
    model.add(sum(at[cell] for cell in rule.cells) == rule.total)


def _unmarked(model, at, rule):
    for total in rule.sums:
        model.add(sum(at[cell] for cell in rule.cells) != total)


MODELS = {Marked: _marked, Unmarked: _unmarked}


def sow(board, answer, dice):
    """All sums of 5 and 10 with all shown, or some sums of any size."""
    pairs, digits = list(neighbours(board)), board.digits
    sums = {pair: sum(answer[cell] for cell in pair) for pair in pairs}
    if dice.random() < 0.5:
        some = sorted(dice.sample(pairs, len(pairs) // 3))
        return tuple(Marked(pair, sums[pair], digits) for pair in some)
    return tuple(
        Marked(pair, sums[pair], digits)
        if sums[pair] in (5, 10)
        else Unmarked(pair, (5, 10), digits)
        for pair in pairs
    )
