"""What is needed of all that was done: from the last digit backwards."""

import pytest

from tests.support.boards import plain
from tests.support.told import told_example
from verify.pencil import bit, digits_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.event import Event
from verify.walk.told.needed import needed
from verify.walk.told.premises import Premises
from verify.walk.told.search import search

FULL = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
SINGLES = plain(4, (2, 2), (1, 0, 0, 0, 0, 0, 3, 0, 0, 4, 0, 0, 0, 0, 0, 2))
RULES = ("boxes", "cage", "even", "greater", "regions")


def done(puzzle, *steps):
    """Events: steps one after the other from the givens on."""
    notes, events = Notes(puzzle), []
    for step in steps:
        events.append(Event(step, tuple(notes.pencil), notes.placed))
        notes.apply([step])
    return events


def sought(puzzle):
    notes, events = Notes(puzzle), []
    search(notes, events)
    return events


def without(*cells):
    return plain(4, (2, 2), [0 if cell in cells else digit for cell, digit in enumerate(FULL)])


def single(cell, digit):
    return Step(Technique.NAKED_SINGLE, Because((cell,), bit(digit)), ((cell, digit),))


def strike(cell, digit):
    return Step(Technique.NAKED_PAIR, Because((cell,), 0), removes=((cell, bit(digit)),))


# --- what is left out


def test_a_strike_that_nothing_rests_on_is_left_out():
    events = sought(SINGLES)
    spare = done(SINGLES, strike(1, 4))
    kept = needed(Premises(Notes(SINGLES)), [*spare, *events])
    assert [each.step.places for each in kept] == [event.step.places for event in events]


@pytest.mark.parametrize("rule", RULES)
def test_every_digit_is_kept_and_no_strike_that_nobody_uses(rule):
    puzzle, _ = told_example(rule)
    events = sought(puzzle)
    kept = needed(Premises(Notes(puzzle)), events)
    placed = [event.step.places for event in events if event.is_placing]
    assert [each.step.places for each in kept if each.step.places] == placed
    used = {use for each in kept for use in each.uses}
    strikes = {number for number, each in enumerate(kept) if each.step.removes}
    assert strikes <= used


@pytest.mark.parametrize("rule", RULES)
def test_a_strike_is_told_just_before_what_rests_on_it(rule):
    """But for what a mark reads off at once, only other strikes stand between them."""
    puzzle, _ = told_example(rule)
    kept = needed(Premises(Notes(puzzle)), sought(puzzle))
    notes = Notes(puzzle)
    for number, each in enumerate(kept):
        left = [notes.pencil[cell] & ~mask for cell, mask in each.step.removes]
        notes.apply([each.step])
        if left and not any(mask.bit_count() == 1 for mask in left):
            user = min(at for at, later in enumerate(kept) if number in later.uses)
            assert all(between.step.removes for between in kept[number:user])


def test_steps_rest_on_what_is_gone_and_name_who_took_it():
    puzzle, _ = told_example("cage")
    kept = needed(Premises(Notes(puzzle)), sought(puzzle))
    notes = Notes(puzzle)
    for number, each in enumerate(kept):
        assert each.based.stands_on(notes.pencil)
        assert all(use < number for use in each.uses)
        before = Notes(puzzle)
        before.apply([kept[use].step for use in each.uses])
        assert each.based.stands_on(before.pencil)
        notes.apply([each.step])


def test_a_step_takes_no_more_than_is_wanted_of_it():
    puzzle, _ = told_example("cage")
    kept = needed(Premises(Notes(puzzle)), sought(puzzle))
    for number, each in enumerate(kept):
        for cell, mask in each.step.removes:
            for digit in digits_of(mask):
                assert any(
                    dict(later.based.needs).get(cell, 0) >> digit & 1
                    for later in kept[number + 1 :]
                )


# --- a goal


def test_for_a_goal_only_what_leads_to_it_is_kept():
    puzzle = without(0, 1, 7, 8, 14)
    events = done(puzzle, single(14, 2), single(1, 2), single(8, 2), single(0, 1))
    kept = needed(Premises(Notes(puzzle)), events, {0: bit(2)})
    assert [each.step.places for each in kept] == [((1, 2),)]


def test_what_the_givens_take_needs_no_step():
    assert needed(Premises(Notes(without(0))), [], {0: bit(2) | bit(3) | bit(4)}) == []


# --- the plainest reason for a digit


def reason(puzzle, step):
    (kept,) = needed(Premises(Notes(puzzle)), done(puzzle, step))
    return kept.step


def test_the_last_cell_of_a_house_is_plainer_than_what_is_left():
    step = reason(without(0), single(0, 1))
    assert step.technique is Technique.LAST_CELL
    assert step.because.houses[0].kind == "box"


def test_a_line_is_told_where_the_box_has_another_place():
    step = reason(without(0, 1, 4, 6), single(0, 1))
    assert (step.technique, step.because.houses[0].kind) == (Technique.HIDDEN_SINGLE, "row")


def test_where_no_house_shows_it_the_cell_has_one_digit_left():
    """Row, column and box of r1c1 have other places for its 1, but nothing else fits it."""
    puzzle = plain(4, (2, 2), (0, 2, 0, 0, 0, 0, 0, 0, 3, 0, 0, 0, 4, 0, 0, 0))
    step = reason(puzzle, single(0, 1))
    assert step.technique is Technique.NAKED_SINGLE
    (kept,) = needed(Premises(Notes(puzzle)), done(puzzle, single(0, 1)))
    assert dict(kept.based.needs) == {0: bit(2) | bit(3) | bit(4)}
