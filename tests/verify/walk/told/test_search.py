"""The search for a path: plain digits first, then what opens most, and suppositions last."""

import pytest

from tests.support.boards import plain
from tests.support.told import told_example
from verify.pencil import bit
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import PLAIN_SINGLES, Because, Step, Technique
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles
from verify.walk.told.event import COST, SUPPOSED, Based, cost_of
from verify.walk.told.search import STRIKING, opens, search
from verify.walk.told.suppositions import opened_by

EMPTY = plain(4, (2, 2))


def digits(*some):
    return sum(map(bit, some))


def sought(puzzle, offered=(), **more):
    notes, events = Notes(puzzle), []
    search(notes, events, offered, **more)
    return notes, events


def sheet(**left):
    """An empty 4 x 4 sheet on which cells, by their names, hold so much."""
    notes = Notes(EMPTY)
    cells = {EMPTY.board.name(cell): cell for cell in EMPTY.board.cells}
    for name, mask in left.items():
        notes.strike(cells[name], ~mask & digits(1, 2, 3, 4))
    return notes


# --- what a strike opens


def test_a_cell_with_one_digit_left_is_opened():
    notes = sheet(r1c1=digits(1, 2))
    assert opens(notes, [(0, digits(2))]) == 1
    assert opens(notes, [(5, digits(2))]) == 0


def test_a_house_with_one_place_left_is_opened():
    notes = sheet(r1c1=digits(1, 2, 3), r1c2=digits(1, 2, 3))
    assert opens(notes, [(2, digits(4))]) == 1


def test_a_digit_is_counted_once_however_it_is_seen():
    notes = sheet(r1c1=digits(3, 4), r1c2=digits(1, 2, 3), r1c3=digits(1, 2, 3), r1c4=digits(3, 4))
    assert opens(notes, [(0, digits(3)), (3, digits(4))]) == 2


def test_what_is_gone_already_opens_nothing():
    notes = sheet(r1c1=digits(1, 2))
    assert opens(notes, [(0, digits(3))]) == 0


def test_what_goes_when_a_candidate_has_gone_is_counted_on_sheets_of_their_own():
    notes = sheet(r1c1=digits(1, 2), r1c2=digits(1, 2, 3), r1c3=digits(1, 3))
    before = list(notes.pencil)
    little, much = opened_by(notes, [((0, bit(1)),), ((0, bit(2)),)])
    assert little >= 1
    assert much >= 3
    assert notes.pencil == before


# --- the order of the search


def is_looked_at(notes):
    return any(True for find in (last_cells, hidden_singles, naked_singles) for _ in find(notes))


@pytest.mark.parametrize("rule", ["boxes", "cage", "even", "greater"])
def test_nothing_is_struck_where_a_digit_can_be_placed(rule):
    puzzle, _ = told_example(rule)
    notes, events = sought(puzzle)
    assert notes.finished
    sheet_so_far, noted = Notes(puzzle), ()
    for event in events:
        if event.step.removes and event.step.technique is not noted:
            assert not is_looked_at(sheet_so_far)
        noted = event.step.technique
        sheet_so_far.apply([event.step])


@pytest.mark.parametrize("rule", ["cage", "boxes", "regions"])
def test_of_what_opens_a_digit_nothing_is_cheaper_for_as_much(rule):
    puzzle, _ = told_example(rule)
    _, events = sought(puzzle)
    notes = Notes(puzzle)
    for event in events:
        step, opened = event.step, opens(notes, event.step.removes)
        if opened and step.technique not in SUPPOSED:
            for find in STRIKING:
                for other in find(notes):
                    as_much = opens(notes, other.removes) >= opened
                    assert not as_much or cost_of(other) >= cost_of(step) - 1e-9
        notes.apply([step])


def test_each_event_holds_the_sheet_before_it():
    puzzle, _ = told_example("whisper")
    _, events = sought(puzzle)
    notes = Notes(puzzle)
    for event in events:
        assert event.before == tuple(notes.pencil)
        assert event.placed == notes.placed
        assert notes.fresh(event.step.removes) == event.step.removes
        notes.apply([event.step])
    assert {Technique.LOCKED, Technique.SHORT_IF} <= {event.step.technique for event in events}


def test_nothing_is_supposed_where_it_must_not_be():
    puzzle, path = told_example("whisper")
    assert any(kept.step.technique in SUPPOSED for kept in path.steps)
    notes, events = sought(puzzle, supposing=False)
    assert not notes.finished
    assert all(event.step.technique not in SUPPOSED for event in events)


def test_what_is_offered_is_taken_where_it_stands_and_nothing_else_gets_on():
    puzzle, path = told_example("whisper")
    supposed = [kept.based for kept in path.steps if kept.step.technique in SUPPOSED]
    notes, events = sought(puzzle, supposed, supposing=False)
    taken = [event.step for event in events if event.step.technique in SUPPOSED]
    assert taken
    assert {step.removes for step in taken} <= {based.step.removes for based in supposed}
    assert notes.finished


def test_what_is_offered_and_does_not_stand_is_not_taken():
    step = Step(Technique.SHORT_IF, Because((0,), 2), removes=((0, digits(1)),))
    assert sought(EMPTY, [Based(step, ((5, digits(4)),))], supposing=False)[1] == []
    notes, (event,) = sought(EMPTY, [Based(step, ())], supposing=False)
    assert event.step == step
    assert notes.pencil[0] == digits(2, 3, 4)


def test_techniques_that_strike_are_neither_singles_nor_suppositions():
    assert len(STRIKING) == len(COST) - len(PLAIN_SINGLES) - len(SUPPOSED)


def test_a_sheet_that_contradicts_itself_is_left():
    puzzle = plain(4, (2, 2), (1, 2, 0, 0, 0, 0, 3, 0, 0, 0, 4, 0, 0, 0, 0, 0))
    notes, events = sought(puzzle)
    assert notes.broken or notes.lacks_a_place
    assert all(event.step.technique not in SUPPOSED for event in events)
