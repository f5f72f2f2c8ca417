"""The sheet: where nobody needs to look again."""

from tests.support.boards import plain
from verify.walk.facts.cells import set_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique

A_STEP = Step(Technique.WING, Because(), removes=((0, 2),))


def looking(found, looked):
    """A finder that tells when it looks."""
    looked.append(True)
    yield from found


def test_nobody_looks_again_where_nothing_was_found_until_something_changes():
    notes, looked = Notes(plain(4, (2, 2), ())), []
    for state in (1, 1, 2, 2):
        assert notes.if_changed("here", state, looking((), looked)) == ()
    assert len(looked) == 2
    notes.if_changed("there", 2, looking((), looked))
    assert len(looked) == 3


def test_what_was_found_is_found_again_on_the_same_state():
    notes = Notes(plain(4, (2, 2), ()))
    for _ in range(2):
        assert notes.if_changed("here", 1, looking([A_STEP], [])) == (A_STEP,)


def test_the_cells_that_see_all_of_some_cells():
    notes = Notes(plain(4, (2, 2), ()))
    # r1c1 and r1c2: the rest of their row, and of their box.
    assert notes.seeing_all(set_of((0, 1)), notes.every_cell) == set_of((2, 3, 4, 5))
    assert notes.seeing_all(set_of((0, 1)), set_of((3, 4, 15))) == set_of((3, 4))
    assert notes.seeing_all(set_of((0, 15)), set_of((1, 2))) == 0
