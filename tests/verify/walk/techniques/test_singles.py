"""Singles by their plain definitions: every one is found, and nothing else."""

import random

import pytest

from tests.support.boards import plain
from tests.support.sowing import sown
from tests.support.truths import loosened
from verify.pencil import bit
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Technique
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles

SHARES = (0.2, 0.5, 0.8, 0.95)


@pytest.fixture(params=[(rule, share) for rule in ("boxes", "columns", "cage") for share in SHARES])
def notes(request):
    """A 6x6 board with a share of its digits given, and what they strike."""
    rule, share = request.param
    puzzle, answer = sown(rule, 6, 1)
    return Notes(loosened(puzzle, answer, share, random.Random(f"{rule} {share}")))


def told(steps, technique):
    """Each house that a step names, with what it places."""
    steps = list(steps)
    assert all(step.technique is technique and not step.removes for step in steps)
    return {(step.because.houses, place) for step in steps for place in step.places}


def is_open(notes, cell):
    return not notes.placed >> cell & 1


def test_the_last_cell_of_a_house_takes_the_digit_that_the_house_lacks(notes):
    expected = set()
    for house in notes.full:
        left = [cell for cell in house.cells if is_open(notes, cell)]
        taken = {notes.pencil[cell].bit_length() - 1 for cell in house.cells if cell not in left}
        lacking = set(range(1, notes.digits + 1)) - taken
        if len(left) == 1 and notes.pencil[left[0]] >> min(lacking) & 1:
            expected.add(((house,), (left[0], min(lacking))))
    assert told(last_cells(notes), Technique.LAST_CELL) == expected


def test_a_last_cell_that_cannot_take_what_its_house_lacks_is_left_open():
    """So it is on a sheet that leads nowhere: nothing is written in against what was struck."""
    notes = Notes(plain(4, None, (1, 2, 3, 0, *[0] * 12)))
    (step, *_) = last_cells(notes)
    assert step.places == ((3, 4),)
    notes.strike(3, bit(4))
    assert list(last_cells(notes)) == []


def test_a_digit_with_one_place_left_in_a_house_stands_there(notes):
    expected = set()
    for house in notes.full:
        for digit in range(1, notes.digits + 1):
            spots = [cell for cell in house.cells if notes.pencil[cell] >> digit & 1]
            if len(spots) == 1 and is_open(notes, spots[0]):
                expected.add(((house,), (spots[0], digit)))
    assert told(hidden_singles(notes), Technique.HIDDEN_SINGLE) == expected


def test_a_cell_with_one_digit_left_holds_it(notes):
    expected = {
        ((), (cell, digit))
        for cell, mask in enumerate(notes.pencil)
        for digit in range(1, notes.digits + 1)
        if is_open(notes, cell) and mask == 1 << digit
    }
    assert told(naked_singles(notes), Technique.NAKED_SINGLE) == expected
