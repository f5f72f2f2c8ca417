"""Skyscrapers, for the tests."""

from hypothesis import strategies as st

from tests.support.places import straight_line, straight_lines
from verify.rules.outside.skyscraper import Skyscraper


def mark(draw, board):
    line = straight_line(draw, board)
    seen = draw(st.integers(1, min(len(line.cells), board.digits)))
    return Skyscraper(line.cells, line.outside, seen)


def _model(model, at, rule):
    """One is seen where it is larger than the largest before it."""
    seen = []
    for index, cell in enumerate(rule.cells):
        before = model.new_int_var(0, 25, "")
        model.add_max_equality(before, [0, *(at[other] for other in rule.cells[:index])])
        larger = model.new_bool_var("")
        model.add(at[cell] > before).only_enforce_if(larger)
        model.add(at[cell] <= before).only_enforce_if(~larger)
        seen.append(larger)
    model.add(sum(seen) == rule.seen)


MODELS = {Skyscraper: _model}


def sow(board, answer, dice):
    skyscrapers = []
    for line in straight_lines(board):
        digits = [answer[cell] for cell in line.cells]
        seen = sum(digit == max(digits[: at + 1]) for at, digit in enumerate(digits))
        skyscrapers.append(Skyscraper(line.cells, line.outside, seen))
    return tuple(dice.sample(skyscrapers, len(skyscrapers) * 3 // 4))
