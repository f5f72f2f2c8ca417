"""Skyscrapers, for the tests."""

from itertools import accumulate, pairwise

from hypothesis import strategies as st

from tests.support.outside import drawn_place, sown_clues
from verify.rules.skyscraper import Skyscraper


def mark(draw, board):
    place, cells = drawn_place(draw, board)
    return Skyscraper(place, cells, draw(st.integers(1, len(cells))), board.digits)


def _model(model, at, rule):
    """The running maximum of the line rises once for each digit that is seen."""
    tops, seen = [], []
    for index in range(len(rule.cells)):
        top = model.new_int_var(1, rule.digits, "")
        model.add_max_equality(top, [at[cell] for cell in rule.cells[: index + 1]])
        tops.append(top)
    for before, after in pairwise(tops):
        rises = model.new_bool_var("")
        model.add(after > before).only_enforce_if(rises)
        model.add(after == before).only_enforce_if(~rises)
        seen.append(rises)
    model.add(sum(seen) + 1 == rule.number)


MODELS = {Skyscraper: _model}


def sow(board, answer, dice):
    def make(place, cells):
        tops = list(accumulate((answer[cell] for cell in cells), max))
        return Skyscraper(place, cells, len(set(tops)), board.digits)

    return sown_clues(board, dice, make, 0.8)
