"""Many suppositions at once: what is seen in slices is what is seen at once."""

import numpy
import pytest

from tests.support.sowing import sown
from tests.support.truths import loosened
from verify.manifest.read import puzzle_from_text
from verify.walk import trial
from verify.walk.notes import Notes
from verify.walk.trial import Trial
from verify.walk.walk import walk


@pytest.mark.parametrize("most", [1, 5_000, 10**9])
def test_confinements_are_the_same_however_many_sheets_are_seen_at_once(monkeypatch, most):
    import random

    puzzle, answer = sown("anti-knight", 6, 1)
    notes = Notes(loosened(puzzle, answer, 0.2, random.Random(1)))
    confined = notes.layout.confined
    assert len(confined.cells)
    pencil = numpy.random.default_rng(1).integers(1, 1 << 7, (40, 36), numpy.uint32)
    whole = confined.leaving(pencil, notes.layout.every_digit)
    monkeypatch.setattr(trial, "MOST_NUMBERS", most)
    assert (confined.leaving(pencil, notes.layout.every_digit) == whole).all()
    assert whole.any()


def test_a_trial_of_nothing_refutes_nothing():
    puzzle, _ = sown("anti-knight", 6, 1)
    assert Trial.of(Notes(puzzle), [], watchful=True).advance() == []


def test_a_board_without_a_house_is_walked_as_far_as_its_marks_lead():
    blank = "kind: blank\nsize: 4\nrules:\n  thermometer: [r1c1 e e, r3c1 e]\n"
    walked = walk(puzzle_from_text(blank))
    assert not walked.finished
