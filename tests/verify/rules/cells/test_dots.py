"""What a page of dots means, reads and says."""

import pytest

from tests.support.boards import plain
from tests.support.counting import formula_answers
from tests.support.models import puzzle_answers
from verify.manifest.read import puzzle_from_text
from verify.marks import Badge
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable
from verify.rule import Use
from verify.rules.cells import dots
from verify.rules.cells.dots import Dotted
from verify.rules.workings.distinct import Distinct

HEAD = "kind: latin\nsize: 4\nrules:\n  dots:\n"


def read(marks):
    puzzle = puzzle_from_text(HEAD + marks, "a.yaml")
    (use,) = [use for use in puzzle.uses if use.rule.name == "dots"]
    return use


def grid_of(relation):
    """Pairs of digits from 1 to 9 that a mark lets stand."""
    mark = Dotted((0, 1), relation, 9)
    every = range(1, 10)
    return {(one, other) for one in every for other in every if mark.holds((one, other))}


def test_only_1_and_2_are_both_consecutive_and_a_double():
    assert grid_of("consecutive") & grid_of("ratio") == {(1, 2), (2, 1)}


def test_without_a_dot_stand_all_pairs_that_neither_dot_allows():
    assert len(grid_of("consecutive")) == 16
    assert len(grid_of("ratio")) == 8
    assert len(grid_of("neither")) == 81 - 16 - 8 + 2
    assert (1, 2) not in grid_of("neither")


def test_no_black_dot_stands_beside_5_7_or_9():
    pencil = [every_digit(9)] * 2
    assert propagate([Dotted((0, 1), "ratio", 9)], pencil)
    assert [tuple(digits_of(mask)) for mask in pencil] == [(1, 2, 3, 4, 6, 8)] * 2


def test_three_black_dots_in_a_row_make_1_2_4_8():
    row = [Dotted((cell, cell + 1), "ratio", 9) for cell in range(3)]
    found = formula_answers(9, [every_digit(9)] * 4, [*row, Distinct("row", (0, 1, 2, 3))])
    assert sorted(found) == [(1, 2, 4, 8), (8, 4, 2, 1)]


@pytest.mark.parametrize("size", [3, 4])
def test_a_board_without_any_dot_counts_as_the_model_does(size):
    board = plain(size).board
    pairs = [(cell, cell + 1) for cell in board.cells if (cell + 1) % size]
    pairs += [(cell, cell + size) for cell in board.cells if cell + size < size * size]
    marks = tuple(Dotted(pair, "neither", size) for pair in pairs)
    puzzle = plain(size, None, (), Use(dots.RULE, marks))
    assert prove(puzzle).word == "none"
    assert puzzle_answers(puzzle) == []


def test_all_shown_speaks_of_every_other_pair():
    use = read("    consecutive: [r1c1 r1c2]\n    ratio: [r2c1 s]\n    all-shown: true\n")
    relations = [mark.relation for mark in use.constraints]
    assert relations == ["consecutive", "ratio"] + ["neither"] * 22
    assert len({mark.cells for mark in use.constraints}) == 24
    assert [saying.key for saying in use.sayings()] == [
        "dots-consecutive",
        "dots-ratio",
        "dots-all-shown",
    ]
    board = plain(4).board
    assert use.marks(board) == (Badge("consecutive", (0, 1)), Badge("ratio", (4, 8)))


def test_dots_alone_say_nothing_of_other_pairs():
    use = read("    ratio:\n      - r1c2 r1c1\n      - [r3c3, r4c3]\n")
    assert [mark.cells for mark in use.constraints] == [(0, 1), (10, 14)]
    assert [(saying.key, saying.count) for saying in use.sayings()] == [("dots-ratio", 2)]


def test_all_shown_may_stand_alone():
    use = read("    all-shown: true\n")
    assert [saying.key for saying in use.sayings()] == ["dots-all-shown"]
    assert use.marks(plain(4).board) == ()


@pytest.mark.parametrize(
    ("marks", "line", "column", "words"),
    [
        ("    consecutive: [r1c1 r2c2]\n", 5, 19, "found r1c1 r2c2, expected two cells that share"),
        ("    ratio: [r1c1 r1c3]\n", 5, 13, "found r1c1 r1c3, expected two cells that share"),
        ("    ratio: [r1c1]\n", 5, 13, "found r1c1, expected two cells that share an edge"),
        ("    ratio: [r1c1 2e]\n", 5, 13, "found 3 cells, expected two cells that share"),
        ("    ratio: [r1c1 r1c5]\n", 5, 18, "found r1c5, expected a cell from r1c1 to r4c4"),
        ("    ratio: [r1c1 e, r1c2 r1c1]\n", 5, 21, "r1c1 r1c2 a second time"),
        ("    ratio: [r1c1 e]\n    consecutive: [r1c1 e]\n", 5, 13, "r1c1 r1c2 a second time"),
        ("    ratio: r1c1 r1c2\n", 5, 12, "expected a list of pairs"),
        ("    all-shown: false\n", 5, 16, 'found "false", expected true'),
        ("    white: [r1c1 e]\n", 5, 5, 'unknown field "white"'),
        ("    - r1c1 r1c2\n", 5, 5, "a mapping with consecutive, ratio or all-shown"),
        ("    {}\n", 5, 5, "found an empty mapping, expected a mapping with consecutive"),
    ],
)
def test_what_cannot_be_is_told_at_its_place(marks, line, column, words):
    with pytest.raises(Unreadable) as refused:
        read(marks)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (line, column)
    assert words in problem.message
