"""What zippers leave, how many grids they have, and which are refused."""

import pytest

from tests.support.counting import formula_answers
from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.zipper import Zipper

HEAD = "kind: sudoku\nsize: 9\nrules:\n  zipper:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def problem(text):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(text, "z.yaml")
    (found,) = refused.value.problems
    return str(found)


@pytest.mark.parametrize(("length", "power"), [(3, 1), (5, 2)])
def test_a_middle_digit_is_the_sum_of_as_many_pairs_as_lie_below_it(length, power):
    # m = 1 + (m - 1) = ... = (m - 1) + 1: m - 1 ways for each pair of cells.
    found = formula_answers(6, [every_digit(6)] * length, [Zipper(tuple(range(length)))])
    assert sum(1 for _ in found) == sum((middle - 1) ** power for middle in range(1, 7))


def test_the_middle_is_2_or_more_and_the_others_lie_below_9():
    pencil = [every_digit(9)] * 5
    assert propagate([Zipper(tuple(range(5)))], pencil)
    assert pencil == masks("12345678", "12345678", "23456789", "12345678", "12345678")


def test_both_pairs_settle_the_middle():
    # 8 + 1 is the only sum with an 8; the 3 then has a 6 about the 9.
    pencil = masks("8", "3", *["123456789"] * 3)
    assert propagate([Zipper(tuple(range(5)))], pencil)
    assert pencil == masks("8", "3", "9", "6", "1")


@pytest.mark.parametrize(
    ("path", "found", "expected"),
    [
        ("r1c1 3e", "a path of 4 cells, which has no middle cell", "an odd number of cells"),
        ("r1c1 e", "a path of two cells", "three cells or more"),
        ("r1c1", "a path of one cell", "three cells or more"),
    ],
)
def test_a_line_without_a_middle_is_refused(path, found, expected):
    text = f"{HEAD}    - r2c1 2e\n    - {path}\n"
    assert problem(text) == f"z.yaml:6:7: found {found}, expected {expected}"


def test_a_long_line_on_a_board_of_16_stays_compact():
    formula = Formula(16, [every_digit(16)] * 15)
    Zipper(tuple(range(15))).clauses(formula)
    assert len(formula.clauses) < 7 * 1500


def test_it_is_drawn_as_one_trail():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2e\n", "z.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["zipper"])
    assert use.marks(puzzle.board) == (Trail("zipper", ((0, 1, 2),)),)
