"""Ladders: one puzzle with more or fewer givens, each rung proved and graded."""

from dataclasses import replace

import pytest

from tests.support.checkout import BOOKS
from verify.ladder import NoSuchRung, ladder
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.proof.verdict import prove
from verify.walk.report.grade import GRADED, Band, grade
from verify.walk.walk import walk

FOUR = """\
title: Four posts
kind: sudoku
size: 4
givens: |
  . . | . 2
  3 2 | . .
  . . | 2 4
  2 . | . .
"""


@pytest.fixture(scope="module")
def herons():
    folder = BOOKS / "classroom" / "puzzles" / "gauge"
    puzzle = read_puzzle(folder / "02-heron-watch.yaml")
    return puzzle, prove(puzzle).answers[0]


def made_of(herons):
    puzzle, answer = herons
    return ladder(puzzle, answer, GRADED[:3])


@pytest.fixture(scope="module")
def rungs(herons):
    return made_of(herons)


def given(puzzle):
    return {cell for cell, digit in enumerate(puzzle.givens) if digit}


def test_each_rung_has_its_band_and_that_one_answer(herons, rungs):
    assert [rung.grade.band for rung in rungs] == list(GRADED[:3])
    for rung in rungs:
        verdict = prove(rung.puzzle)
        assert (verdict.word, verdict.answers[0]) == ("one", herons[1])
        assert grade(walk(rung.puzzle, reasons=False)) == rung.grade


def test_a_calmer_rung_has_all_givens_of_a_stiffer_one_and_more(herons, rungs):
    calm, steady, stiff = (given(rung.puzzle) for rung in rungs)
    assert calm > steady > stiff
    answer = herons[1]
    for rung in rungs:
        assert all(rung.puzzle.givens[cell] == answer[cell] for cell in given(rung.puzzle))


def test_a_puzzle_that_is_too_easy_is_given_fewer_digits(herons, rungs):
    """The calm rung holds enough to climb again, though perhaps by other cells."""
    easy = replace(rungs[0].puzzle, answer=None)
    again = ladder(easy, herons[1], GRADED[:2])
    assert [rung.grade.band for rung in again] == list(GRADED[:2])
    assert given(again[1].puzzle) < given(easy)


def test_what_a_puzzle_can_never_be_is_told():
    puzzle = puzzle_from_text(FOUR)
    with pytest.raises(NoSuchRung) as raised:
        ladder(puzzle, prove(puzzle).answers[0], GRADED[:3])
    assert raised.value.wanted is Band.STIFF
    assert raised.value.near == (Band.CALM,)


def test_the_ladder_is_the_same_each_time(herons, rungs):
    assert [each.puzzle for each in made_of(herons)] == [rung.puzzle for rung in rungs]
