"""What entropic lines leave, how many grids they have, and which are refused."""

from math import factorial

import pytest

from tests.support.counting import formula_answers
from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.entropic_line import EntropicLine

HEAD = "kind: sudoku\nsize: 9\nrules:\n  entropic-line:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def problem(text):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(text, "e.yaml")
    (found,) = refused.value.problems
    return str(found)


@pytest.mark.parametrize("length", [3, 4, 5])
def test_there_are_six_orders_of_thirds_and_a_third_of_the_digits_for_each_cell(length):
    line = EntropicLine(tuple(range(length)), 6)
    found = formula_answers(6, [every_digit(6)] * length, [line])
    assert sum(1 for _ in found) == factorial(3) * 2**length


def test_every_third_cell_lies_in_one_third():
    pencil = masks("2", *["123456789"] * 4, "59")
    assert propagate([EntropicLine(tuple(range(6)), 9)], pencil)
    assert pencil == masks("2", "456789", "456789", "123", "456789", "59")
    pencil[5] = masks("5")[0]
    assert propagate([EntropicLine(tuple(range(6)), 9)], pencil)
    assert pencil == masks("2", "789", "456", "123", "789", "5")


def test_a_contradiction_across_the_line_is_found():
    pencil = masks("1", "123456789", "123456789", "456")
    assert not propagate([EntropicLine(tuple(range(4)), 9)], pencil)


def test_a_board_whose_digits_part_into_no_equal_thirds_is_refused_at_the_rule():
    found = problem("kind: sudoku\nsize: 8\nrules:\n  entropic-line:\n    - r1c1 3e\n")
    assert found == (
        "e.yaml:5:5: found entropic lines on a board of 8 digits,"
        " expected a number of digits that parts into three equal thirds"
    )


def test_a_line_of_two_cells_says_nothing_and_is_refused():
    found = problem(HEAD + "    - r1c1 2e\n    - r2c1 e\n")
    assert found == "e.yaml:6:7: found a path of two cells, expected three cells or more"


def test_a_long_line_on_a_board_of_15_stays_compact():
    formula = Formula(15, [every_digit(15)] * 30)
    EntropicLine(tuple(range(30)), 15).clauses(formula)
    assert len(formula.clauses) < 30 * 20


def test_it_is_drawn_as_one_trail():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2e\n", "e.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["entropic-line"])
    assert use.marks(puzzle.board) == (Trail("entropic-line", ((0, 1, 2),)),)
