"""What a walk does without: its steps stand where all of that is left out."""

import random
from dataclasses import replace

import pytest

from tests.support.boards import plain
from tests.support.maker import kinder, with_givens
from tests.support.sowing import sown
from tests.support.told import unproved
from tests.support.truths import at_home, tightened
from verify.manifest.read import puzzle_from_text
from verify.rules import BY_NAME, RULES
from verify.walk.facts.notes import Notes
from verify.walk.report.unused import Unused, unused
from verify.walk.told.path import told_path
from verify.walk.walk import walk


def spared(puzzle):
    """What the walk of a puzzle does without, and the steps that it takes."""
    path = told_path(puzzle)
    return unused(puzzle, path), [kept.based for kept in path.steps]


def without(puzzle, found):
    """The puzzle without these givens and marks."""
    marks = {(mark.rule, mark.constraint) for mark in found.marks}
    uses = []
    for use in puzzle.uses:
        whole = (use.rule.name, None) in marks
        kept = [each for each in use.constraints if (use.rule.name, each) not in marks]
        uses.append(replace(use, constraints=() if whole else tuple(kept)))
    givens = [0 if cell in found.givens else digit for cell, digit in enumerate(puzzle.givens)]
    return with_givens(replace(puzzle, uses=tuple(uses)), givens)


def fallen(puzzle, steps):
    """What of the steps does not stand in a puzzle, one after another."""
    notes = Notes(puzzle)
    missing = []
    for based in steps:
        missing += unproved(puzzle, based)
        missing += [] if based.stands_on(notes.pencil) else [f"needs left out: {based}"]
        missing += [] if at_home(notes, based.step) else [f"reasons left out: {based.step}"]
        notes.apply([based.step])
    return missing


@pytest.mark.parametrize("rule", [rule.name for rule in RULES])
def test_the_steps_stand_without_all_that_is_unused(rule):
    dice = random.Random(rule)
    loose, answer = sown(rule, 6, 2)
    least = tightened(loose, answer, dice)
    puzzle = kinder(least, answer, dice, min(8, least.givens.count(0)), symmetric=False)
    found, steps = spared(puzzle)
    assert fallen(without(puzzle, found), steps) == []


def test_spare_givens_and_marks_are_found():
    found = [spared(puzzle_from_text(BY_NAME[name].example))[0] for name in ("even", "sandwich")]
    assert any(each.marks for each in found)


FULL = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


def test_without_an_open_cell_every_given_is_spare():
    assert spared(plain(4, (2, 2), FULL))[0] == Unused(tuple(range(16)), ())


def test_the_givens_of_the_only_way_are_needed():
    row = plain(4, (2, 2), (1, 2, 3, 0, *[0] * 12))
    assert spared(row)[0].givens == ()


def test_a_given_that_says_again_what_others_say_is_spare():
    """The last cell of the row needs its row, or its column; the row is needed anyway."""
    grid = [*FULL]
    grid[3] = grid[15] = 0
    found, steps = spared(plain(4, (2, 2), grid))
    assert len(steps) == 2
    assert 5 in found.givens


def test_a_rule_without_marks_is_told_as_a_whole():
    text = BY_NAME["anti-knight"].example
    puzzle = puzzle_from_text(text)
    answer = walk(puzzle).pencil
    nearly = [mask.bit_length() - 1 for mask in answer]
    nearly[0] = 0
    found, _ = spared(with_givens(puzzle, nearly))
    assert [(mark.rule, mark.constraint) for mark in found.marks] == [("anti-knight", None)]


def test_a_rule_of_which_only_one_strike_is_needed_is_needed():
    puzzle = puzzle_from_text(BY_NAME["anti-knight"].example)
    found, _ = spared(puzzle)
    assert found.marks == ()
