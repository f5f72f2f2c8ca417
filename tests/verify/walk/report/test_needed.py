"""The steps that matter: nothing that they rest on is left out, nothing else is kept."""

import pytest

from tests.support.boards import plain
from tests.support.reasons import unproved
from tests.support.sowing import random_minimal
from verify.manifest.read import puzzle_from_text
from verify.pencil import bit, highest
from verify.rules import RULES
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, House, Step, Technique
from verify.walk.report.needed import needed_steps
from verify.walk.walk import Round, Walk, walk

ROW = House("row", tuple(range(9)), True)


def walked(*steps, finished=True):
    rounds = tuple(Round(step.technique, (step,), 1) for step in steps)
    return Walk(rounds, (), finished)


def strikes(cell, digit, *because):
    return Step(Technique.NAKED_PAIR, Because(because), removes=((cell, bit(digit)),))


def places(cell, digit):
    return Step(Technique.NAKED_SINGLE, Because((cell,), bit(digit)), ((cell, digit),))


def hidden(cell, digit):
    return Step(Technique.HIDDEN_SINGLE, Because(ROW.cells, bit(digit), (ROW,)), ((cell, digit),))


def replayed(puzzle, steps):
    """What of each step does not follow where only these steps are taken, and the outcome."""
    notes = Notes(puzzle)
    missing = []
    for step in steps:
        missing += unproved(puzzle.board, list(notes.pencil), step)
        notes.apply([step])
    return missing, notes


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_what_is_left_stands_without_the_rest(rule):
    puzzle = puzzle_from_text(rule.example)
    full = walk(puzzle)
    missing, notes = replayed(puzzle, needed_steps(full))
    assert missing == []
    assert notes.finished == full.finished
    assert not full.finished or tuple(notes.pencil) == full.pencil


@pytest.mark.parametrize("name", ["thermometer", "cage"])
def test_long_walks_of_random_puzzles(name):
    puzzle = random_minimal(name, 6, 3)
    full = walk(puzzle)
    missing, notes = replayed(puzzle, needed_steps(full))
    assert missing == []
    assert notes.finished == full.finished


def test_a_strike_that_no_one_needs_is_left_out():
    needed, needless, place = strikes(0, 3, 5), strikes(1, 3, 5), places(0, 4)
    assert needed_steps(walked(needed, needless, place)) == (needed, place)


def test_what_a_needed_strike_rests_on_is_needed():
    first, second, place = strikes(5, 1, 7), strikes(0, 3, 5), places(0, 4)
    assert needed_steps(walked(first, second, place)) == (first, second, place)


def test_a_strike_that_comes_after_is_not_needed():
    place, late = places(0, 4), strikes(0, 3, 5)
    assert needed_steps(walked(place, late)) == (place,)


def test_of_two_steps_that_strike_the_same_the_first_is_kept():
    first, again, place = strikes(0, 3, 5), strikes(0, 3, 6), places(0, 4)
    assert needed_steps(walked(first, again, place)) == (first, place)


def test_the_only_place_for_a_digit_rests_on_that_digit_alone():
    same, other, place = strikes(2, 4, 5), strikes(2, 3, 5), hidden(0, 4)
    assert needed_steps(walked(same, other, place)) == (same, place)


def test_the_last_cell_of_a_house_rests_on_what_is_placed():
    strike = strikes(0, 3, 5)
    last = Step(Technique.LAST_CELL, Because(ROW.cells, bit(4), (ROW,)), ((0, 4),))
    assert needed_steps(walked(strike, last)) == (last,)


def test_a_walk_that_does_not_finish_is_kept_whole():
    needless = strikes(1, 3, 5)
    assert needed_steps(walked(needless, finished=False)) == (needless,)


def test_every_open_cell_is_still_placed_once():
    puzzle = plain(4, (2, 2), (1, 0, 0, 0, 0, 0, 3, 0, 0, 4, 0, 0, 0, 0, 0, 2))
    full = walk(puzzle)
    assert full.finished
    placed = [place for step in needed_steps(full) for place in step.places]
    given = [(cell, digit) for cell, digit in enumerate(puzzle.givens) if digit]
    assert sorted([*placed, *given]) == [(c, highest(mask)) for c, mask in enumerate(full.pencil)]
