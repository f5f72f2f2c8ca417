"""Extra regions, for the tests; some in one piece, some scattered."""

from hypothesis import strategies as st

from tests.support.paths import random_blob, walks
from verify.rules.workings.distinct import Distinct


def mark(draw, board):
    most = min(board.digits, len(board.cells))
    scattered = st.lists(st.sampled_from(board.cells), min_size=2, max_size=most, unique=True)
    cells = draw(walks(board, 2, most) | scattered)
    return Distinct("extra region", tuple(sorted(cells)))


def _distinct(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)


MODELS = {Distinct: _distinct}


def sow(board, answer, dice):
    regions, taken = [], set()
    for attempt in range(3000):
        size = board.digits - attempt // 500
        cells = random_blob(board, dice, max(size, 2), taken)
        region = Distinct("extra region", cells)
        if len(cells) >= 2 and region.holds(answer):
            regions.append(region)
            taken.update(cells)
        if len(regions) == 6:
            break
    return tuple(regions)
