"""What digits on a corner mean, read and show."""

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.marks import Badge
from verify.pencil import bit, digits_of
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules.cells.quad import Quad

HEAD = "kind: latin\nsize: 4\nrules:\n  quad:\n"
CORNER = (0, 1, 2, 3)


def read(marks):
    puzzle = puzzle_from_text(HEAD + marks, "a.yaml")
    (use,) = [use for use in puzzle.uses if use.rule.name == "quad"]
    return use


def left_of(digits, *masks):
    pencil = [sum(map(bit, mask)) for mask in masks]
    assert propagate([Quad(CORNER, digits)], pencil)
    return [tuple(digits_of(mask)) for mask in pencil]


def test_four_digits_leave_no_others():
    every = range(1, 10)
    assert left_of((1, 2, 3, 4), every, every, every, every) == [(1, 2, 3, 4)] * 4


def test_a_digit_with_one_place_left_is_put_there():
    assert left_of((1,), (2, 3), (2, 3), (1, 2, 3), (2, 3))[2] == (1,)


def test_two_digits_in_two_cells_fill_both():
    assert left_of((1, 2), (1, 2, 3), (1, 2, 3), (3, 4), (3, 4))[:2] == [(1, 2), (1, 2)]


def test_digits_that_crowd_the_same_cells_strike_the_rest():
    """Where 1 and 2 share a cell and one more each, each cell holds what the other leaves."""
    assert left_of((1, 2, 3), (1, 4), (1, 2, 4), (3, 4), (4,)) == [(1,), (2,), (3,), (4,)]


def test_a_digit_listed_twice_stands_twice_or_more():
    quad = Quad(CORNER, (1, 1))
    assert not quad.holds((1, 2, 3, 4))
    assert quad.holds((1, 2, 3, 1))
    assert quad.holds((1, 1, 3, 1))
    assert left_of((1, 1), (1, 2), (1, 2), (2, 3), (2, 3))[:2] == [(1,), (1,)]


def test_a_quad_without_room_has_no_answer():
    pencil = [bit(1) | bit(2), bit(3), bit(3), bit(4)]
    assert not propagate([Quad(CORNER, (1, 2))], pencil)


def test_digits_are_shown_rising_on_the_corner():
    use = read("    - {at: r1c1, digits: [3, 1, 3]}\n    - {at: r3c3, digits: [4]}\n")
    assert use.marks(plain(4).board) == (
        Badge("quad", (0, 1, 4, 5), digits=(1, 3, 3)),
        Badge("quad", (10, 11, 14, 15), digits=(4,)),
    )
    said = [(saying.key, saying.count) for saying in use.sayings()]
    assert said == [("quad", 2), ("quad-repeats", 1)]
    assert [saying.key for saying in read("    - {at: r3c3, digits: [4, 1]}\n").sayings()] == [
        "quad"
    ]


@pytest.mark.parametrize(
    ("marks", "line", "column", "words"),
    [
        ("    - {at: r4c1, digits: [1]}\n", 5, 12, "found r4c1, a quad at the edge"),
        ("    - {at: r1c4, digits: [1]}\n", 5, 12, "found r1c4, a quad at the edge"),
        ("    - {at: r1c5, digits: [1]}\n", 5, 12, "a cell from r1c1 to r4c4"),
        ("    - {at: r1c1 r1c2, digits: [1]}\n", 5, 12, "a cell such as"),
        ("    - {at: r1c1, digits: [1, 5]}\n", 5, 30, "a whole number from 1 to 4"),
        ("    - {at: r1c1, digits: [0]}\n", 5, 27, "a whole number from 1 to 4"),
        (
            "    - {at: r1c1, digits: [1, 2, 3, 4, 4]}\n",
            5,
            26,
            "found 5 digits, expected at most",
        ),
        ("    - {at: r1c1, digits: []}\n", 5, 26, "found an empty list, expected a list of digits"),
        ("    - {at: r1c1, digits: 3}\n", 5, 26, "expected a list of digits"),
        ("    - {at: r1c1}\n", 5, 7, 'missing field "digits"'),
        (
            "    - {at: r2c2, digits: [1]}\n    - {at: r2c2, digits: [2]}\n",
            6,
            12,
            "found r2c2 a second time, expected one mark on a corner",
        ),
    ],
)
def test_what_cannot_be_is_told_at_its_place(marks, line, column, words):
    with pytest.raises(Unreadable) as refused:
        read(marks)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (line, column)
    assert words in problem.message


def test_a_mark_has_all_its_problems_told_at_once():
    with pytest.raises(Unreadable) as refused:
        read("    - {at: r4c4, digits: [1, 7, 9]}\n")
    assert [problem.place.column for problem in refused.value.problems] == [12, 30, 33]
