"""Low and high points: which neighbours count, and what they leave."""

import pytest

from verify.board import Board
from verify.manifest.read import puzzle_from_text
from verify.marks import Tint
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable
from verify.rules.workings.extremes import Extreme


def puzzle(rule, marked, kind="latin", size=4):
    text = f"kind: {kind}\nsize: {size}\nrules:\n  {rule}: {marked}\n"
    return puzzle_from_text(text, "x.yaml")


def read(rule, marked):
    (use,) = [use for use in puzzle(rule, marked).uses if use.rule.name == rule]
    return use


@pytest.mark.parametrize(
    ("rule", "least", "shape"),
    [("local-minimum", True, "inward"), ("local-maximum", False, "outward")],
)
def test_unmarked_edge_neighbours_count(rule, least, shape):
    use = read(rule, "r1c1 r1c2 r3c3")
    assert [set(extreme.cells[1:]) for extreme in use.constraints] == [{4}, {2, 5}, {6, 9, 11, 14}]
    assert all(extreme.is_least is least for extreme in use.constraints)
    assert use.marks(Board(4, 4, 4)) == tuple(Tint(rule, cell, shape) for cell in (0, 1, 10))


def test_a_cell_with_marked_neighbours_alone_says_nothing_and_is_drawn():
    use = read("local-minimum", "r1c1 r1c2 r2c1")
    assert use.constraints[0] == Extreme((0,), True)
    assert use.constraints[0].holds((4,) * 16)
    assert len(use.marks(Board(4, 4, 4))) == 3


@pytest.mark.parametrize(
    ("least", "left"), [(True, ["12345", "23456"]), (False, ["23456", "12345"])]
)
def test_the_ends_of_the_digits_go(least, left):
    pencil = [every_digit(6)] * 5
    assert propagate([Extreme((0, 1, 2, 3, 4), least)], pencil)
    assert ["".join(map(str, digits_of(mask))) for mask in pencil] == [left[0], *left[1:] * 4]


@pytest.mark.parametrize("rule", ["local-minimum", "local-maximum"])
def test_a_board_all_marked_is_free(rule):
    assert prove(puzzle(rule, "r1c1..r2c2", "blank", 2)).word == "many"


def test_marks_are_a_group():
    with pytest.raises(Unreadable) as refused:
        read("local-minimum", "r1c1 r5c5")
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (4, 23)
