"""The order of telling: after what it uses, cheap and near first, and idle digits last."""

import pytest

from tests.support.boards import plain
from tests.support.told import told_example
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.event import Based
from verify.walk.told.needed import Kept, needed
from verify.walk.told.ordering import in_telling_order
from verify.walk.told.premises import Premises
from verify.walk.told.search import search

BOARD = plain(9, (3, 3)).board


def placing(cell, *uses, technique=Technique.HIDDEN_SINGLE):
    return Kept(Based(Step(technique, Because((cell,)), ((cell, 1),)), ()), uses)


def strike(cell, *uses, technique=Technique.LOCKED):
    return Kept(Based(Step(technique, Because((cell,)), removes=((cell, 2),)), ()), uses)


def order(*kept):
    """The cells of the steps in the order of telling."""
    told = in_telling_order(kept, BOARD)
    return [cell for each in told for cell, _ in (*each.step.places, *each.step.removes)]


@pytest.mark.parametrize("rule", ["boxes", "cage", "greater", "whisper"])
def test_each_step_comes_after_what_it_uses_and_none_is_lost(rule):
    puzzle, _ = told_example(rule)
    notes, events = Notes(puzzle), []
    search(notes, events)
    kept = needed(Premises(Notes(puzzle)), events)
    told = in_telling_order(kept, puzzle.board)
    assert sorted(map(repr, (each.based for each in told))) == sorted(
        repr(each.based) for each in kept
    )
    used = {repr(each.based): {repr(kept[use].based) for use in each.uses} for each in kept}
    for number, each in enumerate(told):
        assert all(use < number for use in each.uses)
        assert {repr(told[use].based) for use in each.uses} == used[repr(each.based)]


def test_uses_count_in_the_new_order():
    told = in_telling_order([placing(80), placing(0), strike(40, 1), placing(41, 2)], BOARD)
    cells = [each.based.step.because.cells for each in told]
    assert cells == [(0,), (80,), (40,), (41,)]
    assert [each.uses for each in told] == [(), (), (0,), (2,)]


def test_what_leads_to_a_strike_comes_before_what_nothing_waits_for():
    assert order(placing(0), placing(80), strike(1, 1), placing(2, 2)) == [80, 0, 1, 2]


def test_strikes_are_told_with_the_digit_that_waits_for_them():
    assert order(strike(0), strike(80), placing(79, 1), placing(1, 0)) == [80, 79, 0, 1]


def test_the_cheaper_digit_first():
    last = placing(80, technique=Technique.LAST_CELL)
    assert order(placing(0, technique=Technique.NAKED_SINGLE), last) == [80, 0]


def test_then_the_nearer_one():
    start = placing(40, technique=Technique.LAST_CELL)
    assert order(start, placing(0), placing(80), placing(50)) == [40, 50, 80, 0]
    assert order(start, placing(76), placing(60)) == [40, 76, 60]


def test_what_no_digit_waits_for_comes_last():
    assert order(strike(3), placing(0)) == [0, 3]
