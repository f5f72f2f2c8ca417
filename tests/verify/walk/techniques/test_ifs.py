"""Supposing: all at once and one by one come to the same, and reasons hold."""

import random
from functools import lru_cache

import pytest

from tests.support.reasons import answer_kept, is_news, unproved
from tests.support.sowing import sown
from tests.support.truths import loosened, some_answers
from verify.walk.notes import Notes
from verify.walk.step import Technique
from verify.walk.supposing import Supposition
from verify.walk.techniques import ifs as module
from verify.walk.techniques.either_way import either_way
from verify.walk.techniques.ifs import ifs
from verify.walk.techniques.marks import marks
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles
from verify.walk.trial import Trial

RULES = (
    "boxes",
    "thermometer",
    "cage",
    "arrow",
    "renban",
    "anti-knight",
    "toroidal",
    "equal-sum",
    "sandwich",
    "regions",
)
SOONER = (last_cells, hidden_singles, naked_singles, marks)
BOTH = pytest.mark.parametrize("watchful", [False, True])
EACH = pytest.mark.parametrize("rule", RULES)


@lru_cache
def sheet(rule):
    """A 6x6 board with marks and few of its cells given, and some of its answers."""
    puzzle, answer = sown(rule, 6, 1)
    puzzle = loosened(puzzle, answer, 0.15, random.Random(rule))
    return puzzle, [answer, *some_answers(puzzle, 3, random.Random(rule))]


def notes_of(rule):
    """The sheet after all that singles and marks by themselves find: "if" comes after these."""
    notes = Notes(sheet(rule)[0])
    while steps := next((found for find in SOONER if (found := list(find(notes)))), None):
        notes.apply(steps)
    return notes


def checked(rule, steps):
    """How many steps there are; each must be news, follow from its reasons, and keep answers."""
    puzzle, answers = sheet(rule)
    pencil = notes_of(rule).pencil
    for step in steps:
        assert is_news(pencil, step)
        assert unproved(puzzle.board, pencil, step) == []
        assert all(answer_kept(answer, step) for answer in answers)
    return len(steps)


@BOTH
@EACH
def test_all_at_once_refutes_what_one_by_one_does_and_in_the_same_rounds(rule, watchful):
    notes = notes_of(rule)
    trial, refuted, rounds = Trial(notes, watchful=watchful), {}, 0
    while trial.moving:
        rounds += 1
        refuted |= dict.fromkeys(trial.advance(), rounds)
    alone = {}
    for cell, digit in notes.candidates():
        supposed = Supposition(notes, cell, digit, watchful)
        supposed.follow()
        if supposed.conflicts:
            alone[cell, digit] = supposed.rounds
    assert refuted == alone


@BOTH
def test_what_is_refuted_follows_from_the_reasons(watchful, monkeypatch):
    monkeypatch.setattr(module, "refuted", refuted_by(watchful))
    assert sum(checked(rule, list(ifs(notes_of(rule)))) for rule in RULES) > 20


def refuted_by(watchful):
    def refuted(notes, soon, most):
        found = [Supposition(notes, *each, watchful) for each in notes.candidates()]
        for each in found:
            each.follow()
        return [each for each in found if each.conflicts]

    return refuted


def test_locked_candidates_refute_more():
    def count(watchful):
        found = (refuted_by(watchful)(notes_of(rule), 0, 0) for rule in RULES)
        return sum(map(len, found))

    assert count(True) > count(False)


def test_what_holds_either_way_follows_from_the_reasons():
    steps = {rule: list(either_way(notes_of(rule))) for rule in RULES}
    assert sum(checked(rule, steps[rule]) for rule in RULES) > 20
    for found in steps.values():
        for step in found:
            assert step.technique is Technique.EITHER_WAY
            assert 2 <= len(step.ways) <= 3
            first = [way[0] for way in step.ways]
            assert len({each.cell for each in first}) == 1 or len({e.digit for e in first}) == 1
