"""What a number between two cells means, reads and shows."""

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.marks import Badge
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules.cells.difference import Difference

HEAD = "kind: latin\nsize: 4\nrules:\n  difference:\n"


def read(marks):
    puzzle = puzzle_from_text(HEAD + marks, "a.yaml")
    (use,) = [use for use in puzzle.uses if use.rule.name == "difference"]
    return use


@pytest.mark.parametrize(
    ("by", "left"),
    [(8, [1, 9]), (6, [1, 2, 3, 7, 8, 9]), (5, [1, 2, 3, 4, 6, 7, 8, 9]), (4, list(range(1, 10)))],
)
def test_a_difference_past_half_the_digits_leaves_the_middle_out(by, left):
    pencil = [every_digit(9)] * 2
    assert propagate([Difference((0, 1), by, 9)], pencil)
    assert [list(digits_of(mask)) for mask in pencil] == [left, left]


def test_there_are_two_ways_for_each_smaller_digit():
    every = range(1, 10)
    for by in range(1, 9):
        mark = Difference((0, 1), by, 9)
        ways = [(one, other) for one in every for other in every if mark.holds((one, other))]
        assert len(ways) == 2 * (9 - by)


def test_a_number_stands_on_the_edge():
    use = read("    - {pair: r1c2 r1c1, by: 3}\n    - {pair: [r3c3, r4c3], by: 1}\n")
    assert use.marks(plain(4).board) == (
        Badge("difference", (0, 1), "3"),
        Badge("difference", (10, 14), "1"),
    )
    assert [(saying.key, saying.count) for saying in use.sayings()] == [("difference", 2)]


@pytest.mark.parametrize(
    ("marks", "line", "column", "words"),
    [
        ("    - {pair: r1c1 r2c2, by: 1}\n", 5, 14, "two cells that share an edge"),
        ("    - {pair: r1c1 e, by: 0}\n", 5, 26, "expected a whole number from 1 to 3"),
        ("    - {pair: r1c1 e, by: 4}\n", 5, 26, "expected a whole number from 1 to 3"),
        ("    - {pair: r1c1 e}\n", 5, 7, 'missing field "by"'),
        ("    - {by: 2}\n", 5, 7, 'missing field "pair"'),
        (
            "    - {pair: r1c1 e, by: 1}\n    - {pair: r1c2 w, by: 2}\n",
            6,
            14,
            "r1c1 r1c2 a second time",
        ),
        ("    - r1c1 r1c2\n", 5, 7, "a mapping with pair and by"),
        ("    pair: r1c1 e\n", 5, 5, "expected a list of marks"),
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
        read("    - {pair: r1c1 r2c2, by: 7}\n")
    assert [problem.place.column for problem in refused.value.problems] == [14, 29]
