"""Numbered rooms, for the tests."""

from hypothesis import strategies as st

from tests.support.outside import drawn_place, sown_clues
from verify.rules.numbered_room import NumberedRoom


def mark(draw, board):
    place, cells = drawn_place(draw, board)
    return NumberedRoom(place, cells, draw(st.integers(1, board.digits)), board.digits)


def _model(model, at, rule):
    """The element of the line at the index that its first cell holds."""
    index = model.new_int_var(0, len(rule.cells) - 1, "")
    model.add(index == at[rule.cells[0]] - 1)
    model.add_element(index, [at[cell] for cell in rule.cells], rule.number)


MODELS = {NumberedRoom: _model}


def sow(board, answer, dice):
    def make(place, cells):
        room = cells[answer[cells[0]] - 1]
        return NumberedRoom(place, cells, answer[room], board.digits)

    return sown_clues(board, dice, make)
