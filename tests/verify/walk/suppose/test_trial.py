"""Many suppositions at once: followed part by part or all together, they come to the same."""

import random

import pytest

from tests.support.sowing import sown
from tests.support.truths import loosened
from verify.manifest.read import puzzle_from_text
from verify.walk.facts.notes import Notes
from verify.walk.suppose import trial
from verify.walk.suppose.layout import Layout
from verify.walk.suppose.trial import Trial
from verify.walk.walk import walk

MOST_ROUNDS = 200


@pytest.fixture(scope="module", params=["anti-knight", "arrow", "cage", "sandwich"])
def notes(request):
    puzzle, answer = sown(request.param, 6, 1)
    return Notes(loosened(puzzle, answer, 0.2, random.Random(1)))


def sizes(notes, sheets):
    """Numbers for parts of so many sheets at most."""
    return notes.once(Layout).widest * sheets


def followed(made):
    """What each round of a trial refutes, and all its sheets after each round."""
    rounds = []
    while made.moving:
        assert len(rounds) < MOST_ROUNDS
        # Within a round a part tells what it refutes in the order in which it looks.
        rounds.append((sorted(made.advance()), made.sheets.tolist()))
    return rounds


@pytest.mark.parametrize("watchful", [False, True])
@pytest.mark.parametrize("at_once", [1, 2, 7])
def test_parts_refute_in_each_round_what_all_sheets_at_once_do(
    notes, monkeypatch, at_once, watchful
):
    candidates = list(notes.candidates())
    whole = followed(Trial.of(notes, candidates, watchful=watchful))
    refuted = [number for numbers, _ in whole for number in numbers]
    assert len(whole) > 2
    assert len(candidates) > len(refuted) > 7
    assert max(refuted) > 7
    monkeypatch.setattr(trial, "MOST_NUMBERS", sizes(notes, at_once))
    assert followed(Trial.of(notes, candidates, watchful=watchful)) == whole


@pytest.mark.parametrize("at_once", [1, 7])
def test_parts_of_suppositions_within_one_come_to_the_same(notes, monkeypatch, at_once):
    outer = Trial.of(notes, list(notes.candidates()))
    refuted = {number for numbers, _ in followed(outer) for number in numbers}
    kept = [sheet for number, sheet in enumerate(outer.sheets) if number not in refuted]
    least = max(kept, key=lambda sheet: sum(map(int.bit_count, sheet.tolist())))
    whole, candidates = Trial.within(notes, least)
    rounds = followed(whole)
    monkeypatch.setattr(trial, "MOST_NUMBERS", sizes(notes, at_once))
    parted, same = Trial.within(notes, least)
    assert same == candidates
    assert len(candidates) > 7
    assert followed(parted) == rounds


def test_no_part_has_more_sheets_than_there_is_room_for(notes, monkeypatch):
    made = []
    part = trial._Part

    def counted(its_notes, sheets, *state, **more):
        made.append(len(sheets))
        return part(its_notes, sheets, *state, **more)

    monkeypatch.setattr(trial, "_Part", counted)
    monkeypatch.setattr(trial, "MOST_NUMBERS", sizes(notes, 7) + 1)
    candidates = list(notes.candidates())
    Trial.of(notes, candidates)
    full, rest = divmod(len(candidates), 7)
    assert made == [7] * full + [rest] * bool(rest)


def test_a_trial_of_nothing_refutes_nothing():
    puzzle, _ = sown("anti-knight", 6, 1)
    assert Trial.of(Notes(puzzle), [], watchful=True).advance() == []


def test_a_board_without_a_house_is_walked_as_far_as_its_marks_lead():
    blank = "kind: blank\nsize: 4\nrules:\n  thermometer: [r1c1 e e, r3c1 e]\n"
    walked = walk(puzzle_from_text(blank))
    assert not walked.finished
