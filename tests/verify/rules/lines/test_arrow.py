"""How totals of several cells are read."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.reading.problems import Unreadable

ARROW = "kind: sudoku\nsize: 9\nrules:\n  arrow:\n    - {{total: {total}, shaft: {shaft}}}\n"


def read(total, shaft):
    return puzzle_from_text(ARROW.format(total=total, shaft=shaft), "a.yaml")


@pytest.mark.parametrize("total", ["r2c2 e", "r2c2 s", "r2c2 2e"])
def test_a_total_reads_rightwards_or_downwards(total):
    (arrow,) = read(total, "r3c3 se").uses[3].constraints
    assert arrow.total[0] == 10


@pytest.mark.parametrize("total", ["r2c3 w", "r3c2 n", "r2c2 se", "r2c2 e s"])
def test_a_total_that_would_be_misread_is_refused(total):
    with pytest.raises(Unreadable) as refused:
        read(total, "r4c3 se")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (5, 15)
    assert "from the left" in problem.message
