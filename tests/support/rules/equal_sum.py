"""Lines with equal sums, for the tests."""

from hypothesis import assume
from hypothesis import strategies as st

from tests.support.paths import sown_paths, walk
from verify.rules.lines.equal_sum import EqualSum, parted


def mark(draw, board):
    """Parted at will: the boards of the contract test have no boxes."""
    cells = walk(draw, board, 6)
    parts = {}
    for cell in cells:
        parts.setdefault(draw(st.integers(0, 2)), []).append(cell)
    assume(len(parts) > 1)
    return EqualSum(cells, tuple(map(tuple, parts.values())))


def _model(model, at, rule):
    first, *others = ([at[cell] for cell in part] for part in rule.parts)
    for part in (first, *others):
        model.add_all_different(part)
    for part in others:
        model.add(sum(part) == sum(first))


MODELS = {EqualSum: _model}


def sow(board, answer, dice):
    def fits(path):
        parts = parted(board, path)
        return len(parts) > 1 and EqualSum(path, parts).holds(answer)

    paths = sown_paths(board, dice, fits, (2, 3), 20)
    return tuple(EqualSum(path, parted(board, path)) for path in paths)
