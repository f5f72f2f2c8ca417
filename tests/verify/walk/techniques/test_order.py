"""Order within a house: whatever marks make cells larger, the room that these need."""

import pytest

from tests.support.boards import plain
from tests.support.reasons import unproved
from verify.board import Outside
from verify.rule import Use
from verify.rules.cells import greater, local_minimum
from verify.rules.cells.greater import Greater
from verify.rules.lines import arrow, thermometer, zipper
from verify.rules.lines.arrow import Arrow
from verify.rules.lines.thermometer import Thermometer
from verify.rules.lines.zipper import Zipper
from verify.rules.outside import outside_arrow
from verify.rules.outside.outside_arrow import OutsideArrow
from verify.rules.workings.extremes import Extreme
from verify.walk.facts.notes import Notes
from verify.walk.techniques.order import order

ABOVE = Outside(-1, 1, "s")


def left(cell, *uses):
    """What order leaves in a cell of an empty 9x9 board; all steps are true."""
    puzzle = plain(9, (3, 3), (), *uses)
    notes = Notes(puzzle)
    steps = list(order(notes))
    assert [unproved(puzzle.board, notes.pencil, step) for step in steps] == [[]] * len(steps)
    notes.apply(steps)
    return {digit for digit in range(1, 10) if notes.pencil[cell] >> digit & 1}


@pytest.mark.parametrize(
    ("use", "cell", "kept"),
    [
        (Use(thermometer.RULE, (Thermometer((0, 1)), Thermometer((0, 9)))), 0, range(1, 8)),
        (Use(greater.RULE, tuple(Greater((at, 0)) for at in (1, 9, 10))), 0, range(1, 7)),
        (Use(local_minimum.RULE, (Extreme((10, 1, 9, 11, 19), True),)), 10, range(1, 6)),
        (Use(arrow.RULE, (Arrow((0,), (1, 9)),)), 0, range(3, 10)),
        (Use(zipper.RULE, (Zipper((9, 0, 1)),)), 0, range(3, 10)),
        (Use(outside_arrow.RULE, (OutsideArrow((1, 10, 19), ABOVE, False),)), 1, range(3, 10)),
    ],
    ids=lambda value: value.rule.name if isinstance(value, Use) else "",
)
def test_a_cell_leaves_room_for_all_that_lie_beyond_it_in_a_house(use, cell, kept):
    assert left(cell, use) == set(kept)


def test_marks_of_several_rules_count_together():
    cold = Use(thermometer.RULE, (Thermometer((0, 1)),))
    circle = Use(arrow.RULE, (Arrow((9,), (0, 18)),))
    peak = Use(greater.RULE, (Greater((10, 0)),))
    assert left(0, cold, circle, peak) == set(range(1, 7))


def test_cells_that_see_nothing_of_each_other_need_no_room():
    # r1c1 and r5c5 may hold the same digit.
    assert left(40, Use(greater.RULE, (Greater((0, 40)), Greater((80, 40))))) == set(range(1, 10))
