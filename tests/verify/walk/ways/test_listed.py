"""Lists of ways: marks and houses together say more than each mark by itself."""

from typing import Any

import pytest

from tests.support.boards import plain
from tests.support.sowing import random_minimal
from verify.pencil import bit, every_digit
from verify.rule import Use
from verify.rules.cells import cage
from verify.rules.cells.cage import Cage
from verify.rules.lines import arrow, beyond
from verify.rules.lines.arrow import Arrow
from verify.rules.lines.beyond import Beyond
from verify.walk.facts.notes import Notes
from verify.walk.walk import walk
from verify.walk.ways.listed import MOST_COMBINED, listings


def left(use, cell, without=()):
    """What marks leave in a cell of an empty 9x9 board, and what the lists leave there."""
    notes = Notes(plain(9, (3, 3), (), use))
    for at, mask in without:
        notes.strike(at, mask)
    found = []
    speaking: Any = [link.constraint for link in notes.links], [*listings(notes)]
    for each in speaking[1]:
        each.look()
    for those in speaking:
        kept = notes.pencil[cell]
        for each in those:
            for strike in each.strikes(notes.pencil):
                kept &= ~dict(strike.removes).get(cell, 0)
        found.append({digit for digit in range(1, 10) if kept >> digit & 1})
    return found


def test_a_shaft_in_a_row_has_no_digit_twice():
    # 1 + 1 + 1 is 3, but 1 + 2 + 3 is 6.
    by_itself, listed = left(Use(arrow.RULE, (Arrow((9,), (0, 1, 2)),)), 9)
    assert by_itself == {3, 4, 5, 6, 7, 8, 9}
    assert listed == {6, 7, 8, 9}


def test_what_a_house_leaves_over_is_listed_with_its_houses():
    # Two cages leave r1c5 and r1c6 of the row, which sum to 3.
    cages = (Cage((0, 1, 2, 3), 18, 9), Cage((6, 7, 8), 24, 9))
    _, listed = left(Use(cage.RULE, cages), 4)
    assert listed == {1, 2}


def test_a_mark_that_is_no_sum():
    # Both cells within lie outside the ends and see each other: no 1 and 1.
    line = Use(beyond.RULE, (Beyond((0, 1, 2, 3)),))
    few = [(1, ~(bit(1) | bit(9))), (2, ~bit(1))]
    by_itself, listed = left(line, 1, few)
    assert by_itself == {1, 9}
    assert listed == {9}


def test_too_many_ways_strike_nothing():
    six = Use(cage.RULE, (Cage((0, 1, 2, 3, 4, 5), 30, 9),))
    assert MOST_COMBINED < 9**6
    assert left(six, 0)[1] == set(range(1, 10))


def test_a_cell_without_candidates_has_no_way():
    notes = Notes(plain(9, (3, 3), (), Use(arrow.RULE, (Arrow((9,), (0, 1, 2)),))))
    ways, *_ = listings(notes)
    assert ways.look()
    pencil = [*notes.pencil]
    pencil[0] = 0
    (strike,) = ways.strikes(pencil)
    assert dict(strike.removes) == dict.fromkeys((1, 2, 9), every_digit(9))


@pytest.mark.parametrize(("rule", "seed"), [("equal-cages", 6), ("double-arrow", 3)])
def test_random_puzzles_of_sums_are_walked_to_their_end(rule, seed):
    assert walk(random_minimal(rule, 6, seed), reasons=False).finished
