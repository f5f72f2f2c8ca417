"""What product arrows leave, how many grids they have, and which are refused."""

from math import prod

import pytest

from tests.support.counting import formula_answers
from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.product_arrow import ProductArrow

HEAD = "kind: sudoku\nsize: {size}\nrules:\n  product-arrow:\n    - {arrow}\n"
ANY = "123456789"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def arrow(total, shaft):
    cells = tuple(range(total + shaft))
    return ProductArrow(cells[:total], cells[total:])


def read(text, size=9):
    return puzzle_from_text(HEAD.format(size=size, arrow=text), "p.yaml")


def problem(text, size=9):
    with pytest.raises(Unreadable) as refused:
        read(text, size)
    (found,) = refused.value.problems
    return str(found)


@pytest.mark.parametrize(
    ("total", "shaft", "grids"),
    # The number of divisors, summed over 1 to 9: 1 + 2 + 2 + 3 + 2 + 4 + 2 + 4 + 3.
    [(1, 2, 23), (1, 1, 9), (2, 1, 0)],
)
def test_there_are_as_many_grids_as_the_multiplication_table_has_places(total, shaft, grids):
    found = formula_answers(9, [every_digit(9)] * (total + shaft), [arrow(total, shaft)])
    assert sum(1 for _ in found) == grids


def test_two_circled_cells_read_as_any_product_of_two_figures_without_a_nought():
    found = formula_answers(9, [every_digit(9)] * 4, [arrow(2, 2)])
    table = [f"{one * other}" for one in range(1, 10) for other in range(1, 10)]
    assert sum(1 for _ in found) == sum(len(text) == 2 and "0" not in text for text in table)


@pytest.mark.parametrize(
    ("mark", "before", "after"),
    [
        (arrow(1, 2), [ANY] * 3, [ANY] * 3),
        (arrow(1, 3), ["68", "2", ANY, "35"], ["6", "2", "1", "3"]),
        (arrow(1, 2), ["7", ANY, ANY], ["7", "17", "17"]),
        (arrow(1, 4), ["46", *["234"] * 4], None),
        # 7 x 7 = 49, 7 x 5 = 35 ...: the second figure of seven times an odd digit is odd.
        (arrow(2, 2), [ANY, ANY, "7", "3579"], ["2346", "1359", "7", "3579"]),
        # Only 5 x 5 x 5 is 125; and 9 x 9 x 9 = 729 is the largest that three can make.
        (arrow(3, 3), ["1", "2", "5", "5", ANY, ANY], ["1", "2", "5", "5", "5", "5"]),
        (arrow(3, 3), ["7", ANY, "9", ANY, ANY, ANY], ["7", "2", "9", "9", "9", "9"]),
        (arrow(3, 3), ["89", ANY, ANY, ANY, ANY, ANY], None),
    ],
)
def test_what_stands_in_no_product_goes(mark, before, after):
    pencil = masks(*before)
    assert propagate([mark], pencil) == (after is not None)
    assert after is None or pencil == masks(*after)


def test_a_circled_12_on_a_board_of_16_is_one_digit():
    found = list(formula_answers(16, [1 << 12, 1 << 3, every_digit(16)], [arrow(1, 2)]))
    assert found == [(12, 3, 4)]
    assert arrow(1, 2).holds((12, 3, 4))
    pencil = [1 << 12, every_digit(16), every_digit(16)]
    assert propagate([arrow(1, 2)], pencil)
    assert pencil[1] == pencil[2] == sum(1 << digit for digit in (1, 2, 3, 4, 6, 12))


def test_a_shaft_may_be_long_as_its_digits_may_be_1():
    puzzle = read("r1c1 8e 8s w")
    mark = puzzle.uses[-1].constraints[0]
    assert len(mark.shaft) == 17
    assert prod([1] * 17) == 1
    assert mark.holds([1] * 81)


@pytest.mark.parametrize(
    ("size", "text", "shaft", "total"),
    [
        (9, "{total: r1c1 e, shaft: r1c3}", "one cell", "two cells"),
        (9, "{total: r1c1 2e, shaft: r1c4 e}", "two cells", "three cells"),
        (4, "{total: r1c1 2e, shaft: r2c1 2e}", "three cells", "three cells"),
    ],
)
def test_a_shaft_whose_products_fit_no_total_is_refused(size, text, shaft, total):
    # 9 at most has no second figure, 81 no third; 4 x 4 x 4 = 64 has no third either.
    assert problem(text, size) == (
        f"p.yaml:5:7: found a shaft of {shaft}, expected one that can multiply to a number"
        f" in {total}"
    )


def test_a_total_is_read_as_that_of_an_arrow():
    assert "from the left" in problem("{total: r2c3 w, shaft: r3c3 se}")
    assert "a circle and its shaft" in problem("r2c3")
    assert "more than 9 digits" in problem("{total: r2c3 e, shaft: r3c3 se}", size=10)


@pytest.mark.parametrize(("digits", "total", "shaft"), [(9, 3, 6), (9, 3, 20), (16, 1, 20)])
def test_long_shafts_stay_compact(digits, total, shaft):
    formula = Formula(digits, [every_digit(digits)] * (total + shaft))
    arrow(total, shaft).clauses(formula)
    assert len(formula.clauses) < 2000 * (total + shaft)


def test_shafts_that_leave_one_ring_are_one_trail():
    puzzle = read("{total: r1c1 e, shaft: r2c2 s}\n    - {total: r1c1 e, shaft: r1c3 e}")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["product-arrow"])
    branches = ((1, 10, 19), (1, 2, 3))
    assert use.marks(puzzle.board) == (
        Trail("product-arrow", branches, end="arrowhead", ring=(0, 1)),
    )
    assert [saying.key for saying in use.sayings()] == ["product-arrow", "product-arrow-total"]
