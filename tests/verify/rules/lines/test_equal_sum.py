"""What equal sums leave, how lines are parted, and which are refused."""

import pytest

from verify.board import Board
from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.equal_sum import EqualSum, parted

HEAD = "kind: sudoku\nsize: 9\nrules:\n  equal-sum:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def problem(text):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(text, "e.yaml")
    (found,) = refused.value.problems
    return str(found)


def test_a_line_that_comes_back_to_a_box_has_one_part_there():
    board = Board(9, 9, 9, (3, 3))
    there_and_back = [board.cell(0, 2), board.cell(0, 3), board.cell(1, 2), board.cell(2, 3)]
    assert parted(board, there_and_back) == ((2, 11), (3, 21))


def test_one_cell_beside_three_is_6_or_more_as_digits_of_a_box_differ():
    pencil = [every_digit(9)] * 4
    assert propagate([EqualSum((0, 1, 2, 3), ((0,), (1, 2, 3)))], pencil)
    assert pencil == masks("6789", "123456", "123456", "123456")


def test_one_cell_beside_two_and_three():
    # 6 = 1+5 or 2+4 and 1+2+3, 9 = 1+8 ... 4+5 and 1+2+6 ... 2+3+4; never 3+3.
    pencil = masks("6", *["123456789"] * 5)
    assert propagate([EqualSum(tuple(range(6)), ((0,), (1, 2), (3, 4, 5)))], pencil)
    assert pencil == masks("6", "1245", "1245", "123", "123", "123")


def test_a_long_part_keeps_to_the_sums_of_different_digits():
    # Four different digits sum to 10 or more, and a pair to 17 at most.
    pencil = [every_digit(9)] * 6
    propagate([EqualSum(tuple(range(6)), ((0, 1), (2, 3, 4, 5)))], pencil)
    assert pencil[0] == masks("123456789")[0]
    pencil = masks("1", "123456789", *["123456789"] * 4)
    propagate([EqualSum(tuple(range(6)), ((0, 1), (2, 3, 4, 5)))], pencil)
    assert pencil[1] == masks("9")[0]


def test_a_line_within_one_box_says_nothing_and_is_refused():
    assert problem(HEAD + "    - r1c1 2e s\n") == (
        "e.yaml:5:7: found a line within one box, expected one that passes two boxes or more"
    )


def test_parts_that_cannot_sum_to_the_same_are_refused():
    assert problem(HEAD + "    - r3c3 e\n    - r1c1 2e s e\n") == (
        "e.yaml:6:7: found 4 cells in one box, which sum to 10 or more, and one cell in another,"
        " at most 9, expected cells that can sum to the same in each box"
    )


def test_parts_that_just_can_are_read():
    # 1+2+3 = 6; 1+2+3+4+5 = 15 = 6+9.
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2e e\n    - r4c1 s 2e n e s\n", "e.yaml")
    assert [[*map(len, line.parts)] for line in puzzle.uses[-1].constraints] == [[3, 1], [5, 2]]


@pytest.mark.parametrize("ground", ["kind: latin\nsize: 6\n", "kind: blank\nsize: 6\n"])
def test_a_board_without_boxes_is_refused_at_the_rule(ground):
    found = problem(ground + "rules:\n  equal-sum:\n    - r1c1 2e\n    - r2c2\n")
    assert found == "e.yaml:5:5: found equal sums on a board without boxes, expected boxes"


def test_a_long_line_on_a_board_of_16_stays_compact():
    parts = tuple(tuple(range(at, at + 4)) for at in range(0, 20, 4))
    formula = Formula(16, [every_digit(16)] * 20)
    EqualSum(tuple(range(20)), parts).clauses(formula)
    assert len(formula.clauses) < 25_000


def test_it_is_drawn_as_one_trail():
    puzzle = puzzle_from_text(HEAD + "    - r3c3 2e\n", "e.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["equal-sum"])
    assert use.marks(puzzle.board) == (Trail("equal-sum", ((20, 21, 22),)),)
