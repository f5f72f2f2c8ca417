"""Sandwiches, for the tests."""

from hypothesis import strategies as st

from tests.support.places import straight_line, straight_lines
from verify.rules.outside.sandwich import Sandwich


def mark(draw, board):
    line = straight_line(draw, board, 2)
    most = (len(line.cells) - 2) * (board.digits - 1)
    return Sandwich(line.cells, line.outside, draw(st.integers(0, most)), board.digits)


def _model(model, at, rule):
    """Where the 1 and the largest digit stand; a cell counts where just one of them is behind."""
    ones = [model.new_bool_var("") for _ in rule.cells]
    tops = [model.new_bool_var("") for _ in rule.cells]
    for places, crust in ((ones, 1), (tops, rule.largest)):
        model.add_exactly_one(places)
        for place, cell in zip(places, rule.cells, strict=True):
            model.add(at[cell] == crust).only_enforce_if(place)
            model.add(at[cell] != crust).only_enforce_if(~place)
    counted = []
    for index, cell in enumerate(rule.cells):
        inside = model.new_bool_var("")
        passed = sum(ones[: index + 1]) - sum(tops[: index + 1])
        # 1 or -1 between the crusts and on the first of them, 0 elsewhere.
        model.add_abs_equality(inside, passed)
        part = model.new_int_var(0, rule.largest, "")
        model.add(part == at[cell]).only_enforce_if(inside, ~ones[index], ~tops[index])
        model.add(part == 0).only_enforce_if(~inside)
        model.add(part == 0).only_enforce_if(ones[index])
        model.add(part == 0).only_enforce_if(tops[index])
        counted.append(part)
    model.add(sum(counted) == rule.total)


MODELS = {Sandwich: _model}


def sow(board, answer, dice):
    sandwiches = []
    for line in straight_lines(board)[:: dice.choice((1, 2))]:
        digits = [answer[cell] for cell in line.cells]
        start, end = sorted((digits.index(1), digits.index(board.digits)))
        total = sum(digits[start + 1 : end])
        sandwiches.append(Sandwich(line.cells, line.outside, total, board.digits))
    return tuple(sandwiches)
