"""Supposing: all at once and one by one come to the same, and reasons hold."""

import random
from dataclasses import replace
from functools import lru_cache

import pytest

from tests.support.reasons import answer_kept, is_news, unproved
from tests.support.sowing import sown
from tests.support.truths import loosened, some_answers
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Technique
from verify.walk.suppose.refuting import Refuted
from verify.walk.suppose.supposing import Supposition
from verify.walk.suppose.trial import Trial
from verify.walk.techniques import deep_ifs as deep_module
from verify.walk.techniques import ifs as module
from verify.walk.techniques.deep_ifs import deep_ifs
from verify.walk.techniques.either_way import either_way
from verify.walk.techniques.ifs import ifs
from verify.walk.techniques.marks import marks
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles
from verify.walk.walk import walk
from verify.walk.ways.strikers import strikers_of

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
    "skyscraper",
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


def followed(notes, candidates, watchful):
    """Each of some candidates supposed, one by one, and followed to its end."""
    strikers_of(notes).refresh()
    supposed = [Supposition(notes, cell, digit, watchful) for cell, digit in candidates]
    for each in supposed:
        each.follow()
    return supposed


@BOTH
@EACH
def test_all_at_once_refutes_what_one_by_one_does_and_in_the_same_rounds(rule, watchful):
    notes = notes_of(rule)
    candidates = tuple(notes.candidates())
    trial, refuted, rounds = Trial.of(notes, candidates, watchful=watchful), {}, 0
    while trial.moving:
        rounds += 1
        refuted |= dict.fromkeys(trial.advance(), rounds)
    supposed = followed(notes, candidates, watchful)
    assert refuted == {at: each.rounds for at, each in enumerate(supposed) if each.conflicts}
    for sheet, each in zip(trial.sheets.tolist(), supposed, strict=True):
        assert each.conflicts or sheet == each.pencil


@BOTH
def test_what_is_refuted_follows_from_the_reasons(watchful, monkeypatch):
    monkeypatch.setattr(module, "refuted", refuted_by(watchful))
    assert sum(checked(rule, list(ifs(notes_of(rule)))) for rule in RULES) > 20


def refuted_by(watchful):
    """All that is refuted in any number of rounds."""

    def refuted(notes, soon, most):
        found = followed(notes, tuple(notes.candidates()), watchful)
        gone = tuple((each.cell, each.digit) for each in found if each.conflicts)
        return Refuted(gone, (1,) * len(gone), most, watchful)

    return refuted


def test_locked_candidates_refute_more():
    def count(watchful):
        found = (refuted_by(watchful)(notes_of(rule), 0, 0) for rule in RULES)
        return sum(len(each.candidates) for each in found)

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


# Cells whose digits are given: with the marks of `sown`, no easier step opens these boards.
DEEP = [
    ("anti-knight", 1, (3, 8, 15, 26, 32, 46, 48, 49, 57, 60, 63, 72, 74)),
    ("beyond", 3, (33, 40, 47, 60, 69, 75)),
]


@lru_cache
def deep(rule, seed, given):
    """Such a board, and its answer."""
    puzzle, answer = sown(rule, 9, seed)
    givens = tuple(digit if cell in given else 0 for cell, digit in enumerate(answer))
    return replace(puzzle, givens=givens), answer


@pytest.mark.parametrize(("rule", "seed", "given"), DEEP)
def test_what_a_deep_if_refutes_follows_from_the_reasons(rule, seed, given):
    puzzle, answer = deep(rule, seed, given)
    notes = Notes(puzzle)
    for each in walk(notes.puzzle, reasons=False).rounds:
        if each.technique is Technique.DEEP_IF:
            break
        notes.apply(each.steps)
    steps = list(deep_ifs(notes))
    assert sum(len(step.asides) for step in steps)
    for step in steps:
        assert step.technique is Technique.DEEP_IF
        assert is_news(notes.pencil, step)
        assert unproved(puzzle.board, notes.pencil, step) == []
        assert answer_kept(answer, step)
        assert all(0 < aside.after <= len(step.chain) for aside in step.asides)


def test_a_deep_if_goes_on_from_where_its_candidate_led_before(monkeypatch):
    looks = []
    ruled_out = deep_module._ruled_out

    def looked(notes, sheet):
        looks[-1] += 1
        return ruled_out(notes, sheet)

    monkeypatch.setattr(deep_module, "_ruled_out", looked)
    looks.append(0)
    remembered = walk(deep(*DEEP[0])[0], reasons=False)
    monkeypatch.setattr(deep_module._Known, "keep", lambda *led: None)
    looks.append(0)
    afresh = walk(deep(*DEEP[0])[0], reasons=False)
    assert remembered == afresh
    assert 0 < looks[0] < looks[1]


def test_without_reasons_a_walk_has_the_same_rounds():
    for rule in RULES:
        puzzle = sheet(rule)[0]
        told, counted = walk(puzzle), walk(puzzle, reasons=False)
        assert counted.pencil == told.pencil
        assert [(each.technique, each.ways) for each in counted.rounds] == [
            (each.technique, each.ways) for each in told.rounds
        ]
