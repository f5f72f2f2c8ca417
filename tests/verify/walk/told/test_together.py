"""Strikes of one mark in one breath: a shape is read off at once."""

import pytest

from tests.support.boards import plain
from tests.support.told import told_example
from verify.pencil import bit
from verify.rule import Use
from verify.rules.lines import thermometer
from verify.rules.lines.thermometer import Thermometer
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.event import Based
from verify.walk.told.needed import Kept
from verify.walk.told.together import together

SHAPES = (Thermometer((0, 10, 20)), Thermometer((80, 70, 60)))
PUZZLE = plain(9, (3, 3), (), Use(thermometer.RULE, SHAPES))
FIRST, SECOND = Notes(PUZZLE).links


def digits(*some):
    return sum(map(bit, some))


def push(cell, mask, *uses, needs=(), link=FIRST, technique=Technique.MARK):
    because = Because((cell,), 0, (), (link,))
    step = Step(technique, because, removes=((cell, mask),), rule=link.rule)
    return Kept(Based(step, tuple(needs)), uses)


def placing(cell, digit, *uses):
    step = Step(Technique.NAKED_SINGLE, Because((cell,)), ((cell, digit),))
    return Kept(Based(step, ()), uses)


def told(*kept):
    return together(kept, PUZZLE)


def test_two_strikes_of_a_mark_are_one():
    (one,) = told(push(0, digits(9)), push(10, digits(1)))
    assert one.step.removes == ((0, digits(9)), (10, digits(1)))
    assert one.step.because.cells == (0, 10)
    assert one.uses == ()


def test_and_so_are_their_needs():
    first = push(10, digits(1), needs=[(0, digits(1))])
    second = push(10, digits(2), needs=[(0, digits(2)), (20, digits(9))])
    notes_first = placing(5, 1), placing(6, 2), placing(11, 9)
    *_, one = told(*notes_first, first, second)
    assert one.step.removes == ((10, digits(1, 2)),)
    assert one.based.needs == ((0, digits(1, 2)), (20, digits(9)))
    assert one.step.because.cells == (0, 10, 20)


def test_a_digit_of_the_mark_may_stand_between_them():
    found = told(push(0, digits(9)), placing(10, 5, 0), push(20, digits(1)))
    assert [bool(each.step.places) for each in found] == [False, True]
    assert found[0].step.removes == ((0, digits(9)), (20, digits(1)))
    assert found[1].uses == (0,)


def test_but_no_other_digit():
    second = push(20, digits(1), needs=[(5, digits(7))])
    found = told(placing(4, 7), push(0, digits(9)), placing(40, 5), second)
    assert len(found) == 4


def test_nor_a_strike_of_another_mark():
    second = push(20, digits(1), needs=[(5, digits(7))])
    found = told(placing(4, 7), push(0, digits(9)), push(80, digits(9), link=SECOND), second)
    assert len(found) == 4


def test_what_rests_on_the_digit_between_is_told_after_it():
    second = push(20, digits(5), 1, needs=[(11, digits(5))])
    assert len(told(push(0, digits(9)), placing(10, 5, 0), second)) == 3


def test_the_same_push_is_told_once_however_far_apart():
    first = push(10, digits(1), needs=[(0, digits(1))], link=FIRST)
    again = push(20, digits(1), 1, needs=[(0, digits(1))], link=FIRST)
    found = told(placing(5, 1), first, placing(40, 5, 1), placing(41, 6), again, placing(42, 7, 4))
    assert len(found) == 5
    assert found[1].step.removes == ((10, digits(1)), (20, digits(1)))
    assert [each.uses for each in found] == [(), (), (1,), (), (1,)]


def test_a_strike_that_is_joined_uses_nothing_that_comes_later():
    first = push(10, digits(1), needs=[(0, digits(1))])
    again = push(20, digits(1), 0, 2, needs=[(0, digits(1))])
    found = told(placing(5, 1), first, placing(40, 5), placing(41, 6), again)
    assert found[1].uses == (0,)


def test_other_techniques_stay_by_themselves():
    found = told(push(0, digits(9)), push(10, digits(1), technique=Technique.ARRANGEMENTS))
    assert len(found) == 2


@pytest.mark.parametrize("rule", ["thermometer", "cage", "greater", "skyscraper"])
def test_a_path_has_nothing_left_to_join(rule):
    puzzle, path = told_example(rule)
    assert together(path.steps, puzzle) == list(path.steps)
