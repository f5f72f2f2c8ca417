"""What a number on a corner means, reads and shows."""

from itertools import product

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.marks import Badge
from verify.move import Move
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules.cells.sum_quad import SumQuad

HEAD = "kind: latin\nsize: 4\nrules:\n  sum-quad:\n"


def read(marks):
    puzzle = puzzle_from_text(HEAD + marks, "a.yaml")
    (use,) = [use for use in puzzle.uses if use.rule.name == "sum-quad"]
    return use


@pytest.mark.parametrize(
    ("total", "left"), [(4, [1]), (6, [1, 2, 3]), (12, list(range(1, 10))), (34, [7, 8, 9])]
)
def test_digits_left_around_a_sum(total, left):
    pencil = [every_digit(9)] * 4
    assert propagate([SumQuad((0, 1, 2, 3), total)], pencil)
    assert [list(digits_of(mask)) for mask in pencil] == [left] * 4


def test_sums_of_four_dice():
    """Four dice show 14 in 146 ways out of 1296, more than any other sum."""
    grids = list(product(range(1, 7), repeat=4))
    ways = {
        total: sum(SumQuad((0, 1, 2, 3), total).holds(grid) for grid in grids)
        for total in range(4, 25)
    }
    assert sum(ways.values()) == 1296
    assert ways[14] == max(ways.values()) == 146


def test_reversed_digits_reverse_the_sum():
    six = tuple(range(6))
    move = Move(plain(6).board, six, six, 0, (0, *range(6, 0, -1)))
    assert SumQuad((0, 1, 6, 7), 10).moved(move) == SumQuad((0, 1, 6, 7), 18)


def test_a_number_stands_on_the_corner():
    use = read("    - {at: r1c1, sum: 16}\n    - {at: r3c3, sum: 4}\n")
    assert use.marks(plain(4).board) == (
        Badge("sum-quad", (0, 1, 4, 5), "16"),
        Badge("sum-quad", (10, 11, 14, 15), "4"),
    )
    assert [(saying.key, saying.count) for saying in use.sayings()] == [("sum-quad", 2)]


@pytest.mark.parametrize(
    ("marks", "line", "column", "words"),
    [
        ("    - {at: r4c1, sum: 9}\n", 5, 12, "found r4c1, a quad at the edge"),
        ("    - {at: r2c4, sum: 9}\n", 5, 12, "found r2c4, a quad at the edge"),
        ("    - {at: r1c1, sum: 3}\n", 5, 23, "expected a whole number from 4 to 16"),
        ("    - {at: r1c1, sum: 17}\n", 5, 23, "expected a whole number from 4 to 16"),
        ("    - {at: r1c1}\n", 5, 7, 'missing field "sum"'),
        ("    - {at: r1c1, sum: 9}\n    - {at: r1c1, sum: 8}\n", 6, 12, "r1c1 a second time"),
        ("    at: r1c1\n", 5, 5, "expected a list of marks"),
    ],
)
def test_what_cannot_be_is_told_at_its_place(marks, line, column, words):
    with pytest.raises(Unreadable) as refused:
        read(marks)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (line, column)
    assert words in problem.message
