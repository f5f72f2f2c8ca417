"""Equal sums, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import sown_paths, walk
from verify.rules.equal_sum import EqualSum, parts_of


def mark(draw, board):
    path = walk(draw, board, 6)
    split = draw(st.integers(1, len(path) - 1))
    parts = [path[:split], path[split:]]
    if len(parts[1]) > 1 and draw(st.booleans()):
        parts[1:] = [parts[1][:1], parts[1][1:]]
    return EqualSum(tuple(parts), path)


def _model(model, at, rule):
    first, *others = (sum(at[cell] for cell in part) for part in rule.parts)
    for other in others:
        model.add(first == other)


MODELS = {EqualSum: _model}


def sow(board, answer, dice):
    def line(path):
        return EqualSum(parts_of(path, board), path)

    def fits(path):
        return len(line(path).parts) > 1 and line(path).holds(answer)

    return tuple(map(line, sown_paths(board, dice, fits, (3, 6), 8, 12000)))
