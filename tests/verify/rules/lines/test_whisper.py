"""What whispers leave, which gaps can be, and what is said of them."""

import pytest

from verify.manifest.read import puzzle_from_text
from verify.marks import Trail
from verify.pencil import digits_of, every_digit
from verify.proof.propagate import propagate
from verify.reading.problems import Unreadable
from verify.rule import Saying
from verify.rules import BY_NAME
from verify.rules.lines.whisper import RULE, Whisper

NINE = "kind: sudoku\nsize: 9\nrules:\n  whisper:"
FOUR = "kind: sudoku\nsize: 4\nrules:\n  whisper:"


def read(text):
    return puzzle_from_text(text, "w.yaml")


def problems(text):
    with pytest.raises(Unreadable) as refused:
        read(text)
    return [str(problem) for problem in refused.value.problems]


def use(text):
    puzzle = read(text)
    (use,) = (use for use in puzzle.uses if use.rule is BY_NAME["whisper"])
    return puzzle, use


def masks(*cells):
    return [sum(1 << int(digit) for digit in cell) for cell in cells]


def left(pencil):
    return ["".join(map(str, digits_of(mask))) for mask in pencil]


@pytest.mark.parametrize(
    ("gap", "digits", "cells", "kept"),
    # Digits 1 to n with a gap g: a digit d has a partner where d > g or d <= n - g; no source.
    [
        (5, 9, 3, "12346789"),
        (4, 9, 2, "123456789"),
        (8, 9, 5, "19"),
        (3, 4, 4, "14"),
        (1, 4, 2, "1234"),
    ],
)
def test_digits_of_an_open_line(gap, digits, cells, kept):
    pencil = [every_digit(digits)] * cells
    assert propagate([Whisper(tuple(range(cells)), gap)], pencil)
    assert left(pencil) == [kept] * cells


def test_low_and_high_alternate_from_a_placed_digit():
    pencil = masks("3", *["123456789"] * 3)
    assert propagate([Whisper((0, 1, 2, 3), 5)], pencil)
    assert left(pencil) == ["3", "89", "1234", "6789"]


def test_one_call_finds_all_that_a_line_removes():
    pencil = masks("1", "123456", "123456", "25")
    line = Whisper((0, 1, 2, 3), 3)
    for strike in line.strikes(tuple(pencil)):
        for cell, mask in strike.removes:
            pencil[cell] &= ~mask
    assert left(pencil) == ["1", "456", "12", "5"]


def test_the_gap_is_five_unless_told():
    for marks in ("\n    - r1c1 e se\n", "\n    lines:\n      - r1c1 e se\n"):
        _, told = use(NINE + marks)
        assert [line.gap for line in told.constraints] == [5]
    _, told = use(NINE + "\n    gap: 4\n    lines:\n      - r1c1 e se\n      - r5c5 e\n")
    assert [line.gap for line in told.constraints] == [4, 4]


def test_the_largest_gap_is_one_below_the_digits():
    assert read(FOUR + "\n    gap: 3\n    lines: [r1c1 se]\n")
    expected = "expected a whole number from 1 to 3 as the gap of whispers"
    for gap in (0, 4):
        text = FOUR + f"\n    lines: [r1c1 se]\n    gap: {gap}\n"
        assert problems(text) == [f'w.yaml:6:10: found "{gap}", {expected}']


def test_the_usual_gap_may_be_out_of_reach():
    (problem,) = problems(FOUR + "\n    - r1c1 se\n")
    assert problem.startswith("w.yaml:5:5: found whispers with no gap told")
    assert problem.endswith("expected a gap of 3 at most: {gap: 3, lines: [...]}")


def test_every_problem_is_told():
    text = FOUR + "\n    gap: wide\n    lines:\n      - r1c1\n      - r1c1 n\n"
    assert [problem.split(": ")[0] for problem in problems(text)] == [
        "w.yaml:5:10",
        "w.yaml:7:9",
        "w.yaml:8:14",
    ]
    assert problems(NINE + "\n    gap: 4\n") == ['w.yaml:5:5: missing field "lines"']


def test_the_sentence_names_the_gap_and_each_gap_has_one():
    lines = [Whisper((0, 1), 5), Whisper((9, 10), 4), Whisper((18, 19), 5)]
    assert RULE.says(lines) == (
        Saying("whisper", 1, (("gap", "4"),)),
        Saying("whisper", 2, (("gap", "5"),)),
    )


def test_it_is_drawn_as_one_trail_each():
    puzzle, told = use(NINE + "\n    - r1c1 e\n    - r2c1 e\n")
    assert told.marks(puzzle.board) == (Trail("whisper", ((0, 1),)), Trail("whisper", ((9, 10),)))
