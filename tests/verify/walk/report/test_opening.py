"""How to begin: steps that rest on the givens alone, and agree with the answer."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.pencil import bit
from verify.proof.verdict import prove
from verify.rules import BY_NAME, RULES
from verify.walk.facts.notes import Notes
from verify.walk.report.opening import opening
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles


def placed(notes):
    steps = (*last_cells(notes), *hidden_singles(notes), *naked_singles(notes))
    return {place for step in steps for place in step.places}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_what_is_shown_agrees_with_the_answer_and_rests_on_nothing_else(rule):
    puzzle = puzzle_from_text(rule.example)
    answer = prove(puzzle).answers[0]
    notes = Notes(puzzle)
    for step in opening(puzzle, frozenset({rule.name})):
        assert all(answer[cell] == digit for cell, digit in step.places)
        assert not any(bit(answer[cell]) & struck for cell, struck in step.removes)
        if step.places:
            assert set(step.places) <= placed(notes)
        notes.apply([step])


@pytest.mark.parametrize("name", ["thermometer", "even", "palindrome", "arrow", "anti-king"])
def test_the_digit_could_not_be_placed_without_the_rule(name):
    puzzle = puzzle_from_text(BY_NAME[name].example)
    step, placing = opening(puzzle, frozenset({name}))
    assert step.removes
    assert not set(placing.places) & placed(Notes(puzzle))


def test_a_rule_that_shows_nothing_yet_leaves_digits_to_be_placed():
    puzzle = puzzle_from_text(BY_NAME["regions"].example)
    steps = opening(puzzle, frozenset({"regions"}))
    assert len(steps) == 2
    assert all(step.places for step in steps)
