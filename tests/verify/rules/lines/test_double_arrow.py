"""What double arrows leave, and which are refused."""

import pytest

from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.double_arrow import DoubleArrow

HEAD = "kind: blank\nsize: 3\nrules:\n  double-arrow:\n"
SPIRAL = "r1c1 2e 2s 2w n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def problem(text):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(text, "d.yaml")
    (found,) = refused.value.problems
    return str(found)


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # One cell is the sum of both ends: 1 to 8 about 2 to 9.
        (["123456789"] * 3, ["12345678", "23456789", "12345678"]),
        # Seventeen cells of 1 and 2 sum to 17 or more: the ends hold 8 and 9, or 9 twice.
        (["123456789", *["12"] * 17, "123456789"], ["89", *["12"] * 17, "89"]),
        (["1", "123456789", "123456789", "1"], ["1", "1", "1", "1"]),
    ],
)
def test_both_sides_keep_the_sums_that_they_share(before, after):
    pencil = masks(*before)
    assert propagate([DoubleArrow(tuple(range(len(pencil))))], pencil)
    assert pencil == masks(*after)


def test_six_cells_between_ends_of_three_digits_can_all_be_1():
    puzzle = puzzle_from_text(f"{HEAD}    - {SPIRAL}\n", "d.yaml")
    (arrow,) = puzzle.constraints()
    assert arrow.cells == (0, 1, 2, 5, 8, 7, 6, 3)
    assert arrow.holds([3, 1, 1, 3, 2, 1, 1, 1, 1])


def test_more_cells_than_the_ends_can_sum_to_are_refused():
    assert problem(f"{HEAD}    - {SPIRAL} e\n") == (
        "d.yaml:5:7: found 7 cells between the ends,"
        " expected at most 6, the largest sum of the two ends"
    )


def test_a_line_without_a_cell_between_is_refused():
    found = problem(HEAD + "    - r1c1 2e\n    - r2c1 e\n")
    assert found == "d.yaml:6:7: found a path of two cells, expected three cells or more"


def test_a_long_line_on_a_board_of_16_stays_compact():
    formula = Formula(16, [every_digit(16)] * 12)
    DoubleArrow(tuple(range(12))).clauses(formula)
    assert len(formula.clauses) < 12_000


def test_it_is_drawn_from_ring_to_ring():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2e\n", "d.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["double-arrow"])
    (mark,) = use.marks(puzzle.board)
    assert mark == Trail("double-arrow", ((0, 1, 2),), start="circle", end="circle")
