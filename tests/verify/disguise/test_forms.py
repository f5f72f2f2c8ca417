"""Forms: a puzzle in the disguises that its rules allow."""

from functools import cache
from itertools import islice

import pytest

from tests.support.boards import NEEDS_A_WING, classic, plain
from verify.disguise.forms import TooFewForms, forms, moved, moves, survived
from verify.manifest.read import puzzle_from_text
from verify.move import Disguise
from verify.proof.verdict import prove
from verify.rules import BY_NAME, RULES
from verify.walk.report.grade import grade
from verify.walk.walk import walk

NAMES = [rule.name for rule in RULES]

WIDE_TOTALS = """\
kind: latin
size: 4
rules:
  arrow:
    - {total: r1c1 e, shaft: r2c2 s s e}
givens: |
  1 . . .
  . . . .
  . . . .
  . . . .
"""
EMPTY = """\
kind: latin
size: 2
givens: |
  1 .
  . .
"""


@cache
def answered(name):
    """The example of a rule, with its answer."""
    puzzle = puzzle_from_text(BY_NAME[name].example, f"{name}.yaml")
    return puzzle, prove(puzzle).answers[0]


def every_form(name):
    """As many forms as there are, up to four."""
    puzzle, answer = answered(name)
    try:
        return forms(puzzle, answer, 4)
    except TooFewForms as few:
        return forms(puzzle, answer, few.there_are)


@pytest.mark.parametrize("name", NAMES)
def test_each_form_has_its_own_answer_and_no_other(name):
    found = every_form(name)
    assert len(found) > 1
    assert len({form.answer for form in found}) == len(found)
    for form in found:
        verdict = prove(form)
        assert verdict.word == "one"
        assert verdict.answers[0] == form.answer


@pytest.mark.parametrize("name", NAMES)
def test_a_form_is_as_hard_as_the_puzzle(name):
    first, *others = every_form(name)
    before = grade(walk(first, reasons=False))
    assert [grade(walk(form, reasons=False)) for form in others] == [before] * len(others)


@pytest.mark.parametrize("name", NAMES)
def test_marks_of_a_form_can_be_drawn_and_told(name):
    for form in every_form(name):
        assert len(form.marks()) == len(answered(name)[0].marks())
        assert all(use.sayings() for use in form.uses)


def test_the_first_form_is_the_puzzle_as_it_is():
    puzzle, answer = answered("thermometer")
    assert forms(puzzle, answer, 3)[0].givens == puzzle.givens


def test_forms_are_the_same_each_time():
    puzzle, answer = answered("cage")
    assert forms(puzzle, answer, 3) == forms(puzzle, answer, 3)


def test_a_classic_puzzle_has_as_many_forms_as_anyone_asks_for():
    puzzle = classic(NEEDS_A_WING)
    assert len(forms(puzzle, prove(puzzle).answers[0], 30)) == 30


def test_a_puzzle_of_two_digits_has_two_forms():
    puzzle = puzzle_from_text(EMPTY, "empty.yaml")
    with pytest.raises(TooFewForms) as raised:
        forms(puzzle, prove(puzzle).answers[0], 3)
    assert raised.value.there_are == 2


def test_rows_laid_on_their_side_are_columns():
    puzzle, _ = answered("rows")
    for move in islice(moves(puzzle), 20):
        form = moved(puzzle, move)
        for use in form.uses:
            kind = {"rows": "row", "columns": "column"}[use.rule.name]
            lines = {"row": form.board.row_lines(), "column": form.board.column_lines()}[kind]
            assert [mark.cells for mark in use.constraints] == list(lines)
            assert {mark.kind for mark in use.constraints} == {kind}


@pytest.mark.parametrize(("wide", "high"), [(3, 3), (3, 2), (2, 3)])
def test_boxes_of_a_form_are_the_boxes_of_its_board(wide, high):
    size = wide * high
    puzzle = plain(size, (high, wide))
    for move in islice(moves(puzzle), 30):
        form = moved(puzzle, move)
        (boxes,) = [use for use in form.uses if use.rule.name == "boxes"]
        found = {frozenset(mark.cells) for mark in boxes.constraints}
        assert found == set(map(frozenset, form.board.box_blocks()))


TWO_GRIDS = """\
kind: sudoku
size: 4
grids: [r1c1, r3c3]
givens: |
  1 . . . _ _
  . . . . _ _
  . . . . . .
  . . . . . .
  _ _ . . . .
  _ _ . . . 1
"""


def test_lines_are_shuffled_where_there_is_one_whole_grid_alone():
    one = puzzle_from_text(EMPTY, "empty.yaml")
    two = puzzle_from_text(TWO_GRIDS, "two.yaml")
    assert Disguise.SHUFFLE in survived(one)
    assert Disguise.SHUFFLE not in survived(two)
    assert Disguise.RELABEL in survived(two)


def test_a_number_in_two_circles_still_reads_from_the_left_or_from_the_top():
    puzzle = puzzle_from_text(WIDE_TOTALS, "wide.yaml")
    found = [moved(puzzle, move) for move in moves(puzzle)]
    totals = [form.uses[-1].constraints[0].total for form in found]
    assert len(found) == 4
    assert {second - first for first, second in totals} == {1, 4}


def test_only_what_every_rule_survives():
    puzzle, _ = answered("thermometer")
    assert {kind.name for kind in survived(puzzle)} == {"TURN", "REVERSE"}
