"""What a path is about: its mark, where it breaks open, its hardest step."""

import pytest

from tests.support.boards import plain
from tests.support.told import told_example
from verify.rule import Use
from verify.rules.cells import cage
from verify.rules.cells.cage import Cage
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.event import Based
from verify.walk.told.head import Head, head_of
from verify.walk.told.needed import Kept

PUZZLE = plain(9, (3, 3), (), Use(cage.RULE, (Cage((0, 1), 3, 9), Cage((2, 3), 17, 9))))
FIRST, SECOND = Notes(PUZZLE).links
ROW, *_ = Notes(PUZZLE).houses


def placing(cell, *uses):
    return Kept(Based(Step(Technique.NAKED_SINGLE, Because((cell,)), ((cell, 1),)), ()), uses)


def push(link, *uses):
    because = Because((0,), 0, (), (link,))
    step = Step(Technique.MARK, because, removes=((0, 2),), rule=link.rule)
    return Kept(Based(step, ()), uses)


def look(technique, *uses):
    step = Step(technique, Because((0,), 2, (ROW,)), removes=((0, 2),))
    return Kept(Based(step, ()), uses)


def test_plain_singles_have_no_head():
    assert head_of([placing(0), placing(1, 0)]) == Head()
    assert head_of([]) == Head()


def test_the_mark_is_what_most_digits_rest_on_over_any_number_of_steps():
    found = head_of([push(FIRST), placing(1), push(SECOND), placing(2, 2), placing(3, 3)])
    assert found.mark == SECOND
    assert found.share == pytest.approx(2 / 3)
    assert found.everything_hangs_on_it


def test_of_marks_with_as_much_the_first():
    assert head_of([push(SECOND), placing(1, 0), push(FIRST), placing(2, 2)]).mark == SECOND


def test_little_hangs_on_it_where_few_digits_do():
    found = head_of([push(FIRST), placing(1, 0), placing(2), placing(3)])
    assert found.share == pytest.approx(1 / 3)
    assert not found.everything_hangs_on_it


def test_without_a_mark_the_house_of_the_first_strike():
    found = head_of([placing(1), look(Technique.LOCKED), placing(2, 1)])
    assert (found.mark, found.house, found.share) == (None, ROW, 0)
    assert not found.everything_hangs_on_it


def test_with_a_mark_there_is_no_house_even_where_a_house_comes_first():
    found = head_of([look(Technique.LOCKED), placing(1, 0), push(FIRST), placing(2, 2)])
    assert (found.mark, found.house) == (FIRST, None)


def test_it_breaks_open_where_several_digits_follow():
    locked = look(Technique.LOCKED)
    early = [locked, placing(1), locked, *map(placing, (2, 3, 4, 5))]
    assert head_of(early).break_in == 2
    # Where several follow only in the second half, it opens where most follow in the first.
    late = [locked, placing(1), locked, *map(placing, (2, 3)), locked, *map(placing, (4, 5, 6))]
    assert head_of(late).break_in == 2


def test_the_crux_costs_most_and_of_several_it_is_the_first():
    wing, locked = look(Technique.WING), look(Technique.LOCKED)
    found = head_of([locked, wing, locked, wing, placing(1), locked])
    assert (found.crux, found.last) == (1, 5)


@pytest.mark.parametrize("rule", ["thermometer", "cage", "whisper", "boxes"])
def test_the_head_of_an_example_speaks_of_its_strikes(rule):
    _, path = told_example(rule)
    found = head_of(path.steps)
    strikes = [number for number, kept in enumerate(path.steps) if kept.step.removes]
    assert {found.break_in, found.crux, found.last} <= set(strikes)
    assert found.last == strikes[-1]
    assert 0 <= found.share <= 1
