"""Where the digit outside can stand, and what is read and drawn."""

from itertools import permutations

import pytest

from tests.support.counting import formula_answers
from verify.board import Outside
from verify.manifest.read import puzzle_from_text
from verify.marks import Clue
from verify.pencil import every_digit
from verify.reading.problems import Unreadable
from verify.rules.outside.numbered_room import RULE, NumberedRoom, draw

LEFT = Outside(0, -1, "e")
MANIFEST = "kind: latin\nsize: 6\nrules:\n  numbered-room:\n    {clue}\n"


def test_as_many_lines_as_counting_says():
    # The digit d stands in the N-th cell, N first: N = d = 1, or N is neither 1 nor d, and the
    # rest stand as they like. With d = 2 of 5 that is N in {3, 4, 5}: 3 x 3! lines.
    pencil = [every_digit(5)] * 5
    room = NumberedRoom((0, 1, 2, 3, 4), LEFT, 2)
    found = sorted(formula_answers(5, pencil, [room], houses=[(0, 1, 2, 3, 4)]))
    assert len(found) == 3 * 6
    lines = permutations(range(1, 6))
    assert found == [line for line in lines if line[line[0] - 1] == 2]


def test_a_room_past_the_end_of_the_line_does_not_keep_the_clue():
    room = NumberedRoom((0, 1, 2), LEFT, 4)
    assert room.holds([3, 5, 4])
    assert not room.holds([4, 4, 4])


def test_the_only_room_left_holds_the_digit():
    pencil = [1 << 3, every_digit(4), every_digit(4), every_digit(4)]
    (strike,) = NumberedRoom((0, 1, 2, 3), LEFT, 4).strikes(pencil)
    assert strike.removes == ((2, every_digit(3)),)


@pytest.mark.parametrize("digit", ["0", "7", "[1, 2]"])
def test_what_is_no_digit_is_refused(digit):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(MANIFEST.format(clue=f"left r4: {digit}"), "n.yaml")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (5, 14)
    assert "from 1 to 6 as the digit of a numbered room" in problem.message


def test_a_digit_is_drawn_as_a_digit_so_that_it_prints_as_a_symbol():
    puzzle = puzzle_from_text(MANIFEST.format(clue="left r4: 6"), "n.yaml")
    (use,) = [use for use in puzzle.uses if use.rule is RULE]
    assert draw(puzzle.board, use.constraints) == (
        Clue("outside", Outside(3, -1, "e"), digits=(6,)),
    )
