"""Results that can't be, signs as they are written and drawn, and digits that stand twice."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.marks import Cage
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules.cells.calculation import LARGEST_RESULT, Calculation, Operation

HEAD = "kind: latin\nsize: {size}\nrules:\n  calculation:\n"


def read(*cages, size=6):
    lines = "".join(f"    - {{{cage}}}\n" for cage in cages)
    puzzle = puzzle_from_text(HEAD.format(size=size) + lines, "c.yaml")
    (use,) = [use for use in puzzle.uses if use.rule.name == "calculation"]
    return puzzle.board, use


def problems(*cages, size=6):
    with pytest.raises(Unreadable) as refused:
        read(*cages, size=size)
    return [
        (problem.place.line, problem.place.column, problem.message)
        for problem in refused.value.problems
    ]


@pytest.mark.parametrize(
    ("written", "label"),
    [
        ("op: +, result: 6", "6+"),
        ('op: "-", result: 1', "1−"),
        ("op: −, result: 1", "1−"),
        ("op: x, result: 12", "12×"),
        ("op: ×, result: 12", "12×"),
        ("op: /, result: 2", "2÷"),
        ("op: ÷, result: 2", "2÷"),
        ("result: 12", "12"),
    ],
)
def test_signs_are_drawn_as_they_are_printed(written, label):
    board, use = read(f"cells: r1c1..r1c2, {written}")
    assert use.marks(board) == (Cage("calculation", (0, 1), label),)


@pytest.mark.parametrize("sign", ["", "op: =, ", "op: +, ", 'op: "-", ', "op: x, ", "op: /, "])
def test_a_single_cell_is_its_result_whatever_the_sign(sign):
    board, use = read(f"cells: r2c3, {sign}result: 5")
    assert use.constraints == (Calculation((8,), None, 5),)
    assert use.marks(board) == (Cage("calculation", (8,), "5"),)


@pytest.mark.parametrize(
    ("cage", "column", "expected"),
    [
        ("cells: r1c1..r1c2, op: +, result: 13", 42, "from 2 to 12 as a sum of 2 digits"),
        ("cells: r1c1..r1c2, op: +, result: 1", 42, "from 2 to 12 as a sum of 2 digits"),
        ('cells: r1c1..r1c2, op: "-", result: 6', 44, "from 0 to 5 as a difference of 2 digits"),
        ('cells: r1c1..r1c3, op: "-", result: 5', 44, "from 0 to 4 as a difference of 3 digits"),
        ("cells: r1c1..r1c2, op: x, result: 37", 42, "from 1 to 36 as a product of 2 digits"),
        ("cells: r1c1..r1c2, op: x, result: 13", 42, "a product of 2 digits from 1 to 6"),
        ("cells: r1c1..r1c2, op: /, result: 7", 42, "from 1 to 6 as a quotient of 2 digits"),
        ("cells: r1c1..r1c2, op: /, result: 0", 42, "from 1 to 6 as a quotient of 2 digits"),
        ("cells: r1c1..r1c2, result: 37", 35, "from 0 to 36 as a result of 2 digits"),
        ("cells: r1c1..r1c2, result: 13", 35, "expected a result of 2 digits from 1 to 6"),
        ("cells: r1c1, result: 7", 29, "from 1 to 6 as a result of a single digit"),
        ("cells: r1c1..r2c4, op: −, result: 0", 42, "fewer cells for a difference of 8 digits"),
    ],
)
def test_a_result_out_of_reach_is_told_at_its_place(cage, column, expected):
    ((line, at, message),) = problems(cage)
    assert (line, at) == (5, column)
    assert expected in message


@pytest.mark.parametrize(
    ("cage", "column", "message"),
    [
        (
            "cells: r1c1..r1c2, op: =, result: 3",
            31,
            'found "=", expected one of +, −, ×, ÷, -, x, / for 2 cells',
        ),
        ("cells: r1c1..r1c2, op: plus, result: 3", 31, 'unknown operation "plus"'),
        ("cells: r1c1 r2c2, op: x, result: 6", 15, "found a cage in several parts"),
        ("cells: r1c1", 7, 'missing field "result"'),
    ],
)
def test_other_slips_are_told_at_their_place(cage, column, message):
    ((line, at, found),) = problems(cage)
    assert (line, at) == (5, column)
    assert found.startswith(message)


def test_cages_do_not_overlap():
    ((line, column, message),) = problems(
        "cells: r1c1..r1c2, result: 3", "cells: r1c2 r2c2, result: 3"
    )
    assert (line, column) == (6, 7)
    assert message == "found r1c2 in a second cage, expected cages that do not overlap"


def test_a_product_of_ten_figures_is_refused_in_words_that_are_true():
    ((_, _, message),) = problems("cells: r1c1..r2c8, op: x, result: 1000000000", size=9)
    assert f"from 1 to {LARGEST_RESULT} as a product" in message


@pytest.mark.parametrize(
    ("operation", "result", "left"),
    # Two cells of one line on digits 1 to 6; 1 and 5 are no factors of 18, and so on.
    [
        (Operation.ADD, 11, "56 56"),
        (Operation.SUBTRACT, 4, "1256 1256"),
        (Operation.MULTIPLY, 18, "36 36"),
        (Operation.DIVIDE, 3, "1236 1236"),
        (None, 30, "56 56"),
        (None, 0, "123456 123456"),
    ],
)
def test_what_a_cage_of_two_leaves(operation, result, left):
    pencil = [every_digit(6)] * 2
    assert propagate([Calculation((0, 1), operation, result)], pencil)
    assert ["".join(map(str, digits_of(mask))) for mask in pencil] == left.split()


@pytest.mark.parametrize(
    ("operation", "result", "grid"),
    [
        (Operation.SUBTRACT, 1, (2, 6, 3)),
        (Operation.SUBTRACT, 0, (2, 4, 2)),
        (Operation.DIVIDE, 1, (2, 6, 3)),
        (Operation.DIVIDE, 2, (1, 2, 1)),
        (Operation.MULTIPLY, 4, (2, 1, 2)),
        (None, 11, (2, 6, 3)),
        (None, 36, (2, 6, 3)),
    ],
)
def test_three_digits_in_some_order(operation, result, grid):
    assert Calculation((0, 1, 2), operation, result).holds(grid)
    assert not Calculation((0, 1, 2), operation, result + 7).holds(grid)


def test_one_sentence_for_each_kind_of_cage():
    _, use = read(
        "cells: r1c1, result: 4",
        "cells: r2c1..r2c2, result: 4",
        "cells: r3c1..r3c2, op: +, result: 4",
        "cells: r4c1..r4c2, op: x, result: 4",
    )
    assert [(saying.key, saying.count) for saying in use.sayings()] == [
        ("calculation", 3),
        ("calculation-hidden", 1),
        ("calculation-single", 1),
    ]
