"""Sandwiches, for the tests."""

from hypothesis import strategies as st

from tests.support.outside import drawn_place, sown_clues
from verify.rules.sandwich import Sandwich


def mark(draw, board):
    place, cells = drawn_place(draw, board)
    number = draw(st.integers(0, board.digits * 2))
    return Sandwich(place, cells, number, board.digits)


def _model(model, at, rule):
    """One place of the 1, one of the largest digit, and which cells lie between them."""
    first, last, between = [], [], []
    for cell in rule.cells:
        is_one, is_last = model.new_bool_var(""), model.new_bool_var("")
        model.add(at[cell] == 1).only_enforce_if(is_one)
        model.add(at[cell] != 1).only_enforce_if(~is_one)
        model.add(at[cell] == rule.digits).only_enforce_if(is_last)
        model.add(at[cell] != rule.digits).only_enforce_if(~is_last)
        first.append(is_one)
        last.append(is_last)
    model.add_exactly_one(first)
    model.add_exactly_one(last)
    for index, cell in enumerate(rule.cells):
        before_1, before_n = sum(first[:index]), sum(last[:index])
        after_1, after_n = sum(first[index + 1 :]), sum(last[index + 1 :])
        inside, rising, falling = (model.new_bool_var("") for _ in range(3))
        model.add(before_1 + after_n == 2).only_enforce_if(rising)
        model.add(before_1 + after_n <= 1).only_enforce_if(~rising)
        model.add(before_n + after_1 == 2).only_enforce_if(falling)
        model.add(before_n + after_1 <= 1).only_enforce_if(~falling)
        model.add_max_equality(inside, [rising, falling])
        counted = model.new_int_var(0, rule.digits, "")
        model.add(counted == at[cell]).only_enforce_if(inside)
        model.add(counted == 0).only_enforce_if(~inside)
        between.append(counted)
    model.add(sum(between) == rule.number)


MODELS = {Sandwich: _model}


def sow(board, answer, dice):
    def make(place, cells):
        line = [answer[cell] for cell in cells]
        start, end = sorted((line.index(1), line.index(board.digits)))
        return Sandwich(place, cells, sum(line[start + 1 : end]), board.digits)

    by_line = {frozenset(clue.cells): clue for clue in sown_clues(board, dice, make, 1)}
    return tuple(by_line.values())
