"""What modular lines leave, how many grids they have, and which are refused."""

import pytest

from tests.support.counting import formula_answers
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.modular_line import ModularLine

HEAD = "kind: sudoku\nsize: 9\nrules:\n  modular-line:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def problem(text):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(text, "m.yaml")
    (found,) = refused.value.problems
    return str(found)


@pytest.mark.parametrize(
    ("digits", "length", "grids"),
    # By hand: six orders of the remainders; of 4 digits two leave 1, one leaves 2, one none, so
    # a line of four has 2 x 2 choices where its ends leave 1 and 2 where they do not.
    [(3, 3, 6), (3, 5, 6), (4, 3, 12), (4, 4, 2 * 4 + 4 * 2), (9, 3, 162)],
)
def test_there_are_as_many_grids_as_combinatorics_says(digits, length, grids):
    line = ModularLine(tuple(range(length)), digits)
    found = formula_answers(digits, [every_digit(digits)] * length, [line])
    assert sum(1 for _ in found) == grids


def test_every_third_cell_leaves_one_remainder():
    pencil = masks("4", "258", "123456789", "123456789", "1234")
    assert propagate([ModularLine(tuple(range(5)), 9)], pencil)
    assert pencil == masks("4", "258", "369", "147", "2")


def test_a_board_of_few_digits_is_refused_at_the_rule():
    found = problem("kind: latin\nsize: 2\nrules:\n  modular-line:\n    - r1c1 e sw\n")
    assert found == (
        "m.yaml:5:5: found modular lines on a board of 2 digits, expected 3 digits or more"
    )


def test_a_line_of_two_cells_says_nothing_and_is_refused():
    found = problem(HEAD + "    - r1c1 2e\n    - r2c1 e\n")
    assert found == "m.yaml:6:7: found a path of two cells, expected three cells or more"


def test_it_is_drawn_as_one_trail():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2e\n", "m.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["modular-line"])
    assert use.marks(puzzle.board) == (Trail("modular-line", ((0, 1, 2),)),)
