"""What a thermometer leaves in its cells."""

import pytest

from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.rules.lines.thermometer import Thermometer


@pytest.mark.parametrize(
    ("cells", "left"),
    # A thermometer of k cells on digits 1 to 9 leaves i to 9 - k + i: common practice, no source.
    [
        (8, "12 23 34 45 56 67 78 89"),
        (5, "12345 23456 34567 45678 56789"),
        (9, "1 2 3 4 5 6 7 8 9"),
    ],
)
def test_range_of_each_cell(cells, left):
    pencil = [every_digit(9)] * cells
    assert propagate([Thermometer(tuple(range(cells)))], pencil)
    assert ["".join(map(str, digits_of(mask))) for mask in pencil] == left.split()


def test_too_long_a_thermometer_has_no_answer():
    pencil = [every_digit(4)] * 5
    assert not propagate([Thermometer(tuple(range(5)))], pencil)
