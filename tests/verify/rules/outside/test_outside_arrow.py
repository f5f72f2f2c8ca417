"""How many cells an arrow speaks of, which way it is drawn, and what is refused."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.pencil import digits_of, every_digit
from verify.reading.problems import Unreadable
from verify.rules.outside.outside_arrow import RULE, OutsideArrow, draw

MANIFEST = "kind: sudoku\nsize: 6\nboxes: {boxes}\nrules:\n  outside-arrow:\n    {clue}\n"


def read(clue, boxes="2x3"):
    puzzle = puzzle_from_text(MANIFEST.format(clue=clue, boxes=boxes), "a.yaml")
    (use,) = [use for use in puzzle.uses if use.rule is RULE]
    return puzzle.board, use.constraints


@pytest.mark.parametrize(
    ("place", "cells"),
    [
        ("top c2", (1, 7)),
        ("bottom c2", (31, 25)),
        ("left r1", (0, 1, 2)),
        ("right r1", (5, 4, 3)),
    ],
)
def test_the_arrow_points_the_way_in_which_the_digits_grow(place, cells):
    for way, arrow in (("rise", "in"), ("fall", "out")):
        board, arrows = read(f"{place}: {way}")
        assert [each.cells for each in arrows] == [cells]
        assert [mark.arrow for mark in draw(board, arrows)] == [arrow]


def test_falling_digits_leave_the_largest_in_front():
    _, (arrow,) = read("left r1: fall")
    pencil = [every_digit(6)] * 36
    struck = dict(removed for strike in arrow.strikes(pencil) for removed in strike.removes)
    assert isinstance(arrow, OutsideArrow)
    assert list(digits_of(struck[0])) == [1, 2]
    assert list(digits_of(struck[2])) == [5, 6]


@pytest.mark.parametrize(
    ("clue", "boxes", "message"),
    [
        ("left r1: rises", "2x3", 'did you mean "rise"'),
        ("top c1: rise", "1x6", "found rise over one cell, expected a line that sees two"),
    ],
)
def test_what_cannot_grow_is_refused(clue, boxes, message):
    with pytest.raises(Unreadable) as refused:
        read(clue, boxes)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (6, clue.index(":") + 7)
    assert message in problem.message


def test_a_board_without_boxes_is_refused():
    text = "kind: latin\nsize: 6\nrules:\n  outside-arrow: {left r1: rise}\n"
    with pytest.raises(Unreadable, match=r"a\.yaml:4:18: .* a board with boxes"):
        puzzle_from_text(text, "a.yaml")
