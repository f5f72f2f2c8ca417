"""What sums between cells mean, read, show and say."""

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.marks import Badge
from verify.move import Move
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules.cells.sum_mark import Marked, Unmarked

HEAD = "kind: {kind}\nsize: {size}\nrules:\n  sum-mark:\n"


def read(marks, size=9, kind="latin"):
    puzzle = puzzle_from_text(HEAD.format(kind=kind, size=size) + marks, "a.yaml")
    (use,) = [use for use in puzzle.uses if use.rule.name == "sum-mark"]
    return use


def said(use):
    return [(saying.key, saying.count, *saying.values) for saying in use.sayings()]


def sums_excluded(use):
    return {pair.sums for pair in use.constraints if isinstance(pair, Unmarked)}


@pytest.mark.parametrize(
    ("total", "left"),
    [(5, [1, 2, 3, 4]), (10, list(range(1, 10))), (3, [1, 2]), (17, [8, 9]), (2, [1])],
)
def test_digits_left_beside_a_sum(total, left):
    pencil = [every_digit(9)] * 2
    assert propagate([Marked((0, 1), total, 9)], pencil)
    assert [list(digits_of(mask)) for mask in pencil] == [left, left]


def test_a_bare_list_says_nothing_of_other_pairs():
    use = read("    - {pair: r1c2 r1c1, sum: 9}\n    - {pair: r3c3 s, sum: 5}\n")
    assert use.constraints == (Marked((0, 1), 9, 9), Marked((20, 29), 5, 9))
    assert use.marks(plain(9).board) == (
        Badge("sum-mark", (0, 1), "9"),
        Badge("sum-mark", (20, 29), "5"),
    )
    assert said(use) == [("sum-mark", 2)]
    same = read("    marks:\n      - {pair: r1c2 r1c1, sum: 9}\n      - {pair: r3c3 s, sum: 5}\n")
    assert same == use


@pytest.mark.parametrize(
    ("sums", "size", "excluded"),
    [
        ((), 9, (5, 10)),
        ((5,), 9, (5, 10)),
        ((10, 5), 9, (5, 10)),
        ((9,), 9, (9,)),
        ((9, 5), 9, (5, 9)),
        ((5,), 4, (5,)),
        ((10,), 5, (5, 10)),
    ],
)
def test_all_shown_speaks_of_5_and_10_or_of_the_sums_in_use(sums, size, excluded):
    marks = "".join(
        f"      - {{pair: r1c{column} s, sum: {total}}}\n"
        for column, total in enumerate(sums, start=1)
    )
    marks = f"    marks:\n{marks}" if marks else ""
    use = read(f"{marks}    all-shown: true\n", size, "blank")
    assert sums_excluded(use) == {excluded}
    assert len({pair.cells for pair in use.constraints}) == 2 * size * (size - 1)
    numbers = [("sum-mark", len(sums))] if sums else []
    rest = [("sum-mark-all-shown", 1, ("sum", str(total))) for total in excluded]
    assert said(use) == numbers + rest
    assert len(use.marks(plain(size).board)) == len(sums)


def test_reversed_digits_reverse_all_sums_alike():
    board = plain(9).board
    nine = tuple(range(9))
    move = Move(board, nine, nine, 0, (0, *range(9, 0, -1)))
    assert Marked((0, 1), 5, 9).moved(move) == Marked((0, 1), 15, 9)
    assert Unmarked((0, 1), (5, 10), 9).moved(move) == Unmarked((0, 1), (10, 15), 9)


@pytest.mark.parametrize(
    ("marks", "line", "column", "words"),
    [
        ("    - {pair: r1c1 r3c1, sum: 9}\n", 5, 14, "two cells that share an edge"),
        ("    - {pair: r1c1 s, sum: 1}\n", 5, 27, "expected a whole number from 2 to 18"),
        ("    - {pair: r1c1 s, sum: 19}\n", 5, 27, "expected a whole number from 2 to 18"),
        ("    - {pair: r1c1 s, by: 9}\n", 5, 7, 'missing field "sum"'),
        ("    marks: []\n", 5, 12, "expected a list of marks"),
        ("    all-shown: yes\n", 5, 16, 'found "yes", expected true'),
        ("    mark:\n      - {pair: r1c1 s, sum: 9}\n", 5, 5, 'did you mean "marks"?'),
        ("    r1c1 r1c2\n", 5, 5, "expected a list of marks"),
    ],
)
def test_what_cannot_be_is_told_at_its_place(marks, line, column, words):
    with pytest.raises(Unreadable) as refused:
        read(marks)
    problem = refused.value.problems[0]
    assert (problem.place.line, problem.place.column) == (line, column)
    assert words in problem.message
