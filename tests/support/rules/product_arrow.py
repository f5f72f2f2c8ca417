"""Product arrows, for the tests."""

from hypothesis import strategies as st

from tests.support.paths import sown_paths, walk
from verify.rules.lines.product_arrow import ProductArrow


def mark(draw, board):
    path = walk(draw, board, 6)
    split = draw(st.integers(1, min(3, len(path) - 1)))
    return ProductArrow(path[:split], path[split:])


def _model(model, at, rule):
    number = 0
    for cell in rule.total:
        number = number * 10 + at[cell]
    product = model.new_int_var(1, 999, "")
    model.add(product == number)
    model.add_multiplication_equality(product, [at[cell] for cell in rule.shaft])


MODELS = {ProductArrow: _model}


def _arrow(path, board, answer):
    """The path as an arrow that the answer keeps, with a ring of one or two cells."""
    reads_on = path[1] - path[0] in (1, board.columns)
    for split in (1, 2) if reads_on and len(path) > 2 else (1,):
        arrow = ProductArrow(path[:split], path[split:])
        if arrow.holds(answer):
            return arrow
    return None


def sow(board, answer, dice):
    def fits(path):
        return _arrow(path, board, answer) is not None

    paths = sown_paths(board, dice, fits, (3, 5), 10)
    return tuple(_arrow(path, board, answer) for path in paths)
