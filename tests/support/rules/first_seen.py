"""First seen, for the tests."""

from hypothesis import strategies as st

from tests.support.outside import drawn_place, sown_clues
from verify.board import COMPASS
from verify.rules.first_seen import FirstSeen


def mark(draw, board):
    place, cells = drawn_place(draw, board)
    cells = cells[: draw(st.integers(1, len(cells)))]
    wanted = st.sets(st.integers(1, board.digits), min_size=1, max_size=len(cells))
    return FirstSeen(place, cells, tuple(sorted(draw(wanted))))


def _model(model, at, rule):
    for digit in rule.wanted:
        there = []
        for cell in rule.cells:
            is_it = model.new_bool_var("")
            model.add(at[cell] == digit).only_enforce_if(is_it)
            model.add(at[cell] != digit).only_enforce_if(~is_it)
            there.append(is_it)
        model.add(sum(there) >= 1)


MODELS = {FirstSeen: _model}


def sow(board, answer, dice):
    def make(place, cells):
        height, width = board.boxes
        cells = cells[: height if COMPASS[place.direction][0] else width]
        wanted = dice.sample([answer[cell] for cell in cells], dice.randint(1, 2))
        return FirstSeen(place, cells, tuple(sorted(wanted)))

    return sown_clues(board, dice, make, 0.7)
