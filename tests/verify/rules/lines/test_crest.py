"""What crests leave, how many grids they have, and which are refused."""

from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.counting import formula_answers, plain_answers
from verify.facets import Form
from verify.formula.formula import Formula
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.crest import Crest

HEAD = "kind: blank\nsize: {size}\nrules:\n  crest:\n"


def crest(length):
    return Crest(tuple(range(length)))


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def left(pencil):
    return ["".join(map(str, digits_of(mask))) for mask in pencil]


@pytest.mark.parametrize("digits", [2, 5, 9])
@pytest.mark.parametrize("length", [3, 4, 5])
def test_there_are_as_many_grids_as_sets_of_digits_on_both_sides_of_a_top(digits, length):
    # A top and its place settle how many of the lower digits stand on either side, each in order.
    sides = [(top, length - 1 - top) for top in range(1, length - 1)]
    count = sum(comb(top, a) * comb(top, b) for top in range(digits) for a, b in sides)
    found = formula_answers(digits, [every_digit(digits)] * length, [crest(length)])
    assert sum(1 for _ in found) == count


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (["123456789"] * 3, ["12345678", "23456789", "12345678"]),
        # As long as can be: all digits up and down again.
        (["1234"] * 7, ["1", "2", "3", "4", "3", "2", "1"]),
        # One cell shorter, and the top is one of two.
        (["1234"] * 6, ["12", "23", "34", "34", "23", "12"]),
        # A step that falls goes on falling, one that rises has risen before.
        (["123456789", "5", "4", "123456789"], ["1234", "5", "4", "123"]),
        (["123456789", "123456789", "5", "6", "123456789"], ["123", "234", "5", "6", "12345"]),
    ],
)
def test_what_is_left(before, after):
    pencil = masks(*before)
    assert propagate([crest(len(pencil))], pencil)
    assert left(pencil) == after


@given(st.lists(st.integers(1, 63).map(lambda bits: bits << 1), min_size=3, max_size=5))
def test_one_call_strikes_all_that_stands_in_no_answer(pencil):
    """Nothing but the plain check tells what can stay."""
    kept = [0] * len(pencil)
    for answer in plain_answers(pencil, [crest(len(pencil))]):
        kept = [mask | 1 << digit for mask, digit in zip(kept, answer, strict=True)]
    marks = list(pencil)
    for strike in crest(len(pencil)).strikes(pencil):
        for cell, mask in strike.removes:
            marks[cell] &= ~mask
    assert marks == kept


def test_neither_end_is_the_top_and_no_two_neighbours_are_alike():
    assert crest(4).holds((1, 2, 4, 3))
    assert crest(4).holds((2, 4, 3, 2))
    assert not crest(4).holds((1, 2, 3, 4))
    assert not crest(4).holds((4, 3, 2, 1))
    assert not crest(4).holds((1, 4, 4, 1))
    assert not crest(4).holds((2, 1, 4, 3))


@pytest.mark.parametrize(
    ("digits", "length", "form"),
    [(9, 3, Form.ORDER), (9, 4, Form.MORE), (4, 6, Form.MORE), (4, 7, Form.ORDER)],
)
def test_an_order_says_all_where_the_top_has_one_place(digits, length, form):
    assert crest(length).facets(digits).all_by is form


@pytest.mark.parametrize(
    ("size", "path", "found", "expected"),
    [
        (4, "r2c1", "a path of one cell", "three cells or more"),
        (4, "r2c1 e", "a path of two cells", "three cells or more"),
        (
            3,
            "r2c1 s 2e n w",
            "a path of 6 cells",
            "at most 5, which rise and fall through every digit",
        ),
    ],
)
def test_too_short_or_too_long_a_line_is_refused(size, path, found, expected):
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(f"{HEAD.format(size=size)}    - r1c1 2e\n    - {path}\n", "c.yaml")
    (problem,) = refused.value.problems
    assert str(problem) == f"c.yaml:6:7: found {found}, expected {expected}"


def test_the_longest_line_is_taken():
    assert puzzle_from_text(HEAD.format(size=3) + "    - r2c1 s 2e n\n", "c.yaml")


def test_a_long_line_on_a_board_of_16_stays_compact():
    formula = Formula(16, [every_digit(16)] * 15)
    crest(15).clauses(formula)
    assert len(formula.clauses) < 14 * 500


def test_it_is_drawn_as_one_trail():
    puzzle = puzzle_from_text(HEAD.format(size=4) + "    - r1c1 2e\n", "c.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["crest"])
    assert use.marks(puzzle.board) == (Trail("crest", ((0, 1, 2),)),)
