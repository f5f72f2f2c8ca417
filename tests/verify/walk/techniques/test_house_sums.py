"""House sums: what the sums of marks leave of whole houses, whatever states them."""

import pytest

from tests.support.boards import plain
from tests.support.reasons import unproved
from verify.board import Outside
from verify.pencil import bit
from verify.rule import Use
from verify.rules.cells import cage, calculation
from verify.rules.cells.cage import Cage
from verify.rules.cells.calculation import Calculation, Operation
from verify.rules.houses import anti_king
from verify.rules.lines import arrow, equal_sum, zipper
from verify.rules.lines.arrow import Arrow
from verify.rules.lines.equal_sum import EqualSum
from verify.rules.lines.zipper import Zipper
from verify.rules.outside import edge_sum
from verify.rules.workings.outside_sum import OutsideSum
from verify.walk.facts.notes import Notes
from verify.walk.techniques.house_sums import house_sums

TOP = tuple(range(8))
"""The first row of 9 cells but its last."""


def left(use, cell, digits=9, boxes=(3, 3), without=(), more=()):
    """What house sums leave in a cell of an empty board with some marks; all steps are true."""
    puzzle = plain(digits, boxes, (), use, *more)
    notes = Notes(puzzle)
    for at, mask in without:
        notes.strike(at, mask)
    steps = list(house_sums(notes))
    assert [unproved(puzzle.board, notes.pencil, step) for step in steps] == [[]] * len(steps)
    notes.apply(steps)
    return {digit for digit in range(1, digits + 1) if notes.pencil[cell] >> digit & 1}


@pytest.mark.parametrize(
    "use",
    [
        Use(cage.RULE, (Cage(TOP, 40, 9),)),
        Use(calculation.RULE, (Calculation(TOP, Operation.ADD, 40),)),
    ],
    ids=lambda use: use.rule.name,
)
def test_all_of_a_row_but_one_cell(use):
    assert left(use, 8) == {5}


def test_sums_seen_from_outside_leave_the_middle_box_its_part_of_a_row():
    sums = (
        OutsideSum((0, 1, 2), Outside(0, -1, "e"), 15),
        OutsideSum((8, 7, 6), Outside(0, 9, "w"), 23),
    )
    assert left(Use(edge_sum.RULE, sums), 4) == {1, 2, 4}


def test_five_cells_of_a_box_that_sum_as_a_cage_does():
    four = Use(cage.RULE, (Cage((0, 1, 2, 9), 30, 9),))
    assert left(four, 20) == {1, 2, 3, 4, 5}


def test_a_shaft_counts_as_its_circle():
    # The row sums to 21; what is not on the shaft is 15.
    shaft = Use(arrow.RULE, (Arrow((6,), (0, 1, 2)),))
    rest = [(cell, ~(bit(4) | bit(5) | bit(6))) for cell in (3, 4, 5)]
    assert left(shaft, 6, 6, (2, 3), rest) == {6}


def test_the_parts_of_a_line_in_two_boxes():
    line = EqualSum((1, 2, 3, 4), ((1, 2), (3, 4)))
    known = [(0, ~bit(1)), (5, ~bit(6))]
    # Row: 1 + s + s + 6 = 21, so s is 7: no pair of 7 holds a 1 or a 6 that the row has.
    assert left(Use(equal_sum.RULE, (line,)), 3, 6, (2, 3), known) == {2, 3, 4, 5}


def test_teeth_count_as_the_middle():
    # r1c1 + r1c5 = r1c3, r1c2 + r1c4 = r1c3: the row is 3 * r1c3 + r1c6 = 21.
    assert left(Use(zipper.RULE, (Zipper((0, 1, 2, 3, 4)),)), 5, 6, (2, 3)) == {3, 6}


def test_cells_left_over_that_see_each_other_by_a_mark():
    # Rows 1 and 2 sum to 20; r1c4 and r2c3 are left, which touch at a corner.
    rest = Use(calculation.RULE, (Calculation((0, 1, 2, 4, 5, 7), Operation.ADD, 16),))
    apart = Use(anti_king.RULE, anti_king.of_board(plain(4).board))
    assert left(rest, 3, 4, None) == {1, 2, 3}
    assert left(rest, 3, 4, None, more=(apart,)) == {1, 3}
