"""How much stays open where a supposition is left out, and leaving out what can be spared."""

import pytest

from tests.support.told import told_example
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told import path as told
from verify.walk.told.event import SUPPOSED, Based, Event
from verify.walk.told.leaving_out import left_without
from verify.walk.told.needed import needed
from verify.walk.told.path import told_path
from verify.walk.told.premises import Premises
from verify.walk.told.search import search


@pytest.fixture(scope="module")
def way():
    """A puzzle, all that is needed to its end, and the suppositions among it."""
    puzzle, _ = told_example("whisper")
    notes, events = Notes(puzzle), []
    search(notes, events)
    kept = needed(Premises(Notes(puzzle)), events)
    return puzzle, kept, [each.based for each in kept if each.step.technique in SUPPOSED]


def test_without_what_is_no_part_of_it_the_path_ends(way):
    puzzle, kept, _ = way
    cells = len(puzzle.board.cells)
    stranger = Based(kept[0].step, ((0, 2),))
    assert left_without(Notes(puzzle), kept, [stranger, stranger]) == [cells, cells]


def test_without_what_it_rests_on_candidates_are_left_and_the_sheet_stays(way):
    puzzle, kept, supposed = way
    notes = Notes(puzzle)
    left = left_without(notes, kept, supposed)
    assert supposed
    assert min(left) > len(puzzle.board.cells)
    assert notes.pencil == Notes(puzzle).pencil
    # The first one opens the way to those after it.
    assert left[0] == max(left)


def test_a_supposition_that_can_be_spared_is_left_out(monkeypatch):
    """The search begins with an "if" for what a mark says by itself."""
    puzzle, path = told_example("cage")
    said = next(kept.step for kept in path.steps if kept.step.removes)
    hasty = Step(Technique.SHORT_IF, Because(said.because.cells, 0), removes=said.removes)

    def search_hastily(notes, events, offered=(), *, supposing=True):
        if supposing:
            events.append(Event(hasty, tuple(notes.pencil), notes.placed))
            notes.apply([hasty])
        search(notes, events, offered, supposing=supposing)

    monkeypatch.setattr(told, "search", search_hastily)
    assert told_path(puzzle).steps == path.steps
    monkeypatch.setattr(told, "MOST_TRIED", 0)
    assert hasty in [kept.step for kept in told_path(puzzle).steps]
