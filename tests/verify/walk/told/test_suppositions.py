"""Which suppositions are told: what opens most for its length, and a thought to its end."""

import pytest

from tests.support.told import told_example
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Technique
from verify.walk.told.event import SUPPOSED
from verify.walk.told.suppositions import supposed


@pytest.fixture(scope="module")
def stuck():
    """A sheet where looking gets no further, and what was supposed there."""
    puzzle, path = told_example("whisper")
    notes = Notes(puzzle)
    first = next(at for at, each in enumerate(path.steps) if each.step.technique in SUPPOSED)
    notes.apply([each.step for each in path.steps[:first]])
    return notes, supposed(notes)


def test_what_is_supposed_belongs_to_one_cell_or_one_digit(stuck):
    _, steps = stuck
    struck = [(cell, mask) for step in steps for cell, mask in step.removes]
    assert len(struck) > 1
    assert len({cell for cell, _ in struck}) == 1 or len({mask for _, mask in struck}) == 1


def test_all_of_it_stands_on_the_sheet_as_it_is_and_none_is_told_twice(stuck):
    notes, steps = stuck
    struck = [each for step in steps for each in step.removes]
    assert len(set(struck)) == len(struck)
    assert all(notes.pencil[cell] & mask == mask for cell, mask in struck)
    assert {step.technique for step in steps} <= {Technique.SHORT_IF, Technique.LONG_IF}
