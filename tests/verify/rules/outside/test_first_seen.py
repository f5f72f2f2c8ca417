"""How many cells count, what is read, and what is drawn."""

import pytest

from tests.support.boards import plain
from verify.board import Outside
from verify.manifest.read import puzzle_from_text
from verify.marks import Clue
from verify.pencil import every_digit
from verify.reading.problems import Unreadable
from verify.rules.outside.first_seen import RULE, FirstSeen, draw

MANIFEST = "kind: {kind}\nsize: 6\nrules:\n  first-seen:\n    {clue}\n"


def read(clue, kind="sudoku"):
    puzzle = puzzle_from_text(MANIFEST.format(clue=clue, kind=kind), "f.yaml")
    (use,) = [use for use in puzzle.uses if use.rule is RULE]
    return use.constraints


def problem(clue, kind="sudoku"):
    with pytest.raises(Unreadable) as refused:
        read(clue, kind)
    (only,) = refused.value.problems
    return only


def test_a_row_looks_along_the_width_of_a_box_and_a_column_along_its_height():
    assert [each.cells for each in read("left r2: 4")] == [(6, 7, 8)]
    assert [each.cells for each in read("right r1: 4")] == [(5, 4, 3)]
    assert [each.cells for each in read("bottom c3: [4, 1]")] == [(32, 26)]


@pytest.mark.parametrize(
    ("clue", "column", "message"),
    [
        ("top c1: [1, 2, 3]", 13, "at most 2, as many as a box is long"),
        ("left r1: [1, 2, 1]", 21, "found 1 again, expected each digit once"),
        ("left r1: 7", 14, "from 1 to 6 as a digit seen first"),
        ("left r1: []", 14, "from 1 to 6 as a digit seen first"),
    ],
)
def test_what_cannot_be_seen_is_refused(clue, column, message):
    found = problem(clue)
    assert (found.place.line, found.place.column) == (5, column)
    assert message in found.message


def test_a_board_without_boxes_is_refused():
    found = problem("top c1: 1", "latin")
    assert (found.place.line, found.place.column) == (5, 5)
    assert "a board with boxes" in found.message


def test_digits_are_drawn_as_digits_so_that_they_print_as_symbols():
    found = read("top c1: [5, 2]")
    assert draw(plain(6).board, found) == (Clue("outside", Outside(-1, 0, "s"), digits=(2, 5)),)


def test_as_many_digits_as_cells_leave_nothing_else():
    pencil = [every_digit(9)] * 3
    strikes = FirstSeen((0, 1, 2), Outside(0, -1, "e"), (2, 5, 9)).strikes(pencil)
    left = {1 << 2 | 1 << 5 | 1 << 9}
    assert {pencil[cell] & ~mask for strike in strikes for cell, mask in strike.removes} == left
