"""Counting circles, for the tests."""

from hypothesis import strategies as st

from verify.rules.cells.count_circles import CountCircles


def mark(draw, board):
    cells = draw(st.sets(st.sampled_from(board.cells), min_size=1))
    return CountCircles(tuple(sorted(cells)), board.digits)


def _model(model, at, rule):
    """For each digit, as many equal cells as it says, or none."""
    for digit in range(1, rule.digits + 1):
        equal = []
        for cell in rule.cells:
            is_it = model.new_bool_var("")
            model.add(at[cell] == digit).only_enforce_if(is_it)
            model.add(at[cell] != digit).only_enforce_if(~is_it)
            equal.append(is_it)
        used = model.new_bool_var("")
        model.add(sum(equal) == digit).only_enforce_if(used)
        model.add(sum(equal) == 0).only_enforce_if(~used)


MODELS = {CountCircles: _model}


def sow(board, answer, dice):
    """Circles on all that some digits' counts ask for."""
    chosen = dice.sample(range(1, board.digits + 1), board.digits // 2)
    cells = []
    for digit in chosen:
        spots = [cell for cell in board.cells if answer[cell] == digit]
        cells += dice.sample(spots, digit)
    return (CountCircles(tuple(sorted(cells)), board.digits),)
