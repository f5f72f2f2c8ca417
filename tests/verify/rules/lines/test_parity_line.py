"""What parity lines leave, and which lines are refused."""

import pytest

from tests.support.counting import plain_answers
from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME
from verify.rules.lines.parity_line import ParityLine

HEAD = "kind: blank\nsize: 5\nrules:\n  parity-line:\n"


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def left(pencil):
    return ["".join(map(str, digits_of(mask))) for mask in pencil]


@pytest.mark.parametrize(("digits", "cells"), [(5, 3), (4, 4), (9, 2)])
def test_a_line_begins_odd_or_even_and_goes_on_in_turns(digits, cells):
    odd, even = digits - digits // 2, digits // 2
    half, rest = cells // 2, cells - cells // 2
    line = ParityLine(tuple(range(cells)))
    answers = list(plain_answers([every_digit(digits)] * cells, [line]))
    assert len(answers) == odd**half * even**rest + odd**rest * even**half


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (["12345"] * 3, ["12345"] * 3),
        # One cell tells the parity of all, wherever it stands.
        (["12345", "12345", "24", "12345"], ["24", "135", "24", "135"]),
        (["3", "12345", "12345", "12345"], ["3", "24", "135", "24"]),
    ],
)
def test_strikes(before, after):
    pencil = masks(*before)
    assert propagate([ParityLine(tuple(range(len(pencil))))], pencil)
    assert left(pencil) == after


def test_odd_cells_that_have_to_differ_leave_nothing():
    assert not propagate([ParityLine((0, 1, 2, 3))], masks("13", "12345", "12345", "5"))


def test_the_first_and_last_cell_need_not_differ():
    assert ParityLine((0, 1, 2)).holds((3, 2, 3))
    assert not ParityLine((0, 1, 2)).holds((3, 2, 4))


def test_one_cell_is_refused_at_its_place():
    with pytest.raises(Unreadable) as refused:
        puzzle_from_text(HEAD + "    - r1c1 se\n    - r3c3\n", "p.yaml")
    (problem,) = refused.value.problems
    assert str(problem) == "p.yaml:6:7: found a path of one cell, expected two cells or more"


def test_it_is_drawn_as_one_trail():
    puzzle = puzzle_from_text(HEAD + "    - r1c1 2se\n", "p.yaml")
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["parity-line"])
    assert use.marks(puzzle.board) == (Trail("parity-line", ((0, 6, 12),)),)
