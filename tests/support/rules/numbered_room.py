"""Numbered rooms, for the tests."""

from hypothesis import strategies as st

from tests.support.places import straight_line, straight_lines
from verify.rules.outside.numbered_room import NumberedRoom


def mark(draw, board):
    line = straight_line(draw, board)
    return NumberedRoom(line.cells, line.outside, draw(st.integers(1, board.digits)))


def _model(model, at, rule):
    """The N-th of the line is the digit: an element constraint."""
    line = [at[cell] for cell in rule.cells]
    index = model.new_int_var(0, len(line) - 1, "")
    model.add(index == line[0] - 1)
    model.add_element(index, line, rule.digit)


MODELS = {NumberedRoom: _model}


def sow(board, answer, dice):
    rooms = []
    for line in straight_lines(board):
        digits = [answer[cell] for cell in line.cells]
        rooms.append(NumberedRoom(line.cells, line.outside, digits[digits[0] - 1]))
    return tuple(rooms)
