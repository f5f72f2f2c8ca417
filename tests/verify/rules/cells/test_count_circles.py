"""How many circles there can be, and which digits stand in them."""

from itertools import combinations

import pytest

from verify.board import Board
from verify.manifest.read import puzzle_from_text
from verify.marks import Tint
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules.cells.count_circles import RULE, CountCircles


def read(circles, size=4):
    text = f"kind: latin\nsize: {size}\nrules:\n  count-circles: {circles}\n"
    (use,) = [
        use for use in puzzle_from_text(text, "c.yaml").uses if use.rule.name == "count-circles"
    ]
    return use


def left(circles, digits, pencil=None):
    pencil = pencil or [every_digit(digits)] * circles
    sound = propagate([CountCircles(tuple(range(circles)), digits)], pencil)
    return ["".join(map(str, digits_of(mask))) for mask in pencil] if sound else None


def test_no_more_circles_than_all_digits_say():
    assert len(read("r1c1..r2c4 r3c1 r3c2").constraints[0].cells) == 1 + 2 + 3 + 4
    with pytest.raises(Unreadable) as refused:
        read("r1c1..r2c4 r3c1 r3c2 r3c3")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (4, 18)
    assert problem.message == "found 11 circles, expected at most 10, the sum of all digits"


def test_a_disc_in_each_cell_and_one_sentence_for_all():
    use = read("r1c1 r3c2 r2c4")
    assert use.marks(Board(4, 4, 4)) == tuple(
        Tint("count-circle", cell, "disc") for cell in (0, 7, 9)
    )
    assert [(saying.key, saying.count) for saying in use.sayings()] == [("count-circles", 3)]


@pytest.mark.parametrize("circles", range(1, 16))
def test_the_digits_used_sum_to_the_number_of_circles(circles):
    sums = [
        chosen
        for count in range(1, 6)
        for chosen in combinations(range(1, 6), count)
        if sum(chosen) == circles
    ]
    usable = "".join(str(digit) for digit in range(1, 6) if any(digit in each for each in sums))
    assert left(circles, 5) == [usable] * circles


def test_a_digit_that_must_be_used_takes_the_cells_that_it_needs():
    # Three circles hold 3 3 3 or 1 2 2; without a 3 in the first there are two cells for the 2.
    assert left(3, 3, [0b0010, 0b1110, 0b1110]) == ["1", "2", "2"]


def test_a_digit_too_often_is_no_answer():
    assert left(3, 4, [0b0010, 0b0010, 0b11110]) is None


def test_rows_and_columns_may_be_shuffled():
    assert "SHUFFLE" in [disguise.name for disguise in RULE.survives]
