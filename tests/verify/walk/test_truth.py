"""Every step of a walk is true, whatever the rule, and however many answers a puzzle has."""

import os
import random
import subprocess
import sys
from dataclasses import replace
from functools import lru_cache
from hashlib import sha256

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tests.support.boards import plain
from tests.support.checkout import ROOT
from tests.support.draws import moves
from tests.support.effort import effort
from tests.support.truths import loose, some_answers, tight, untruths
from verify.disguise.forms import moved, survived
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.pencil import bit
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.rules import BY_NAME, RULES
from verify.walk.facts.step import Because, House, Step, Technique
from verify.walk.report.grade import grade
from verify.walk.walk import Round, Walk, walk

EVERY_RULE = pytest.mark.parametrize("rule", [rule.name for rule in RULES])
BOARDS = ("14-two-grids", "15-holes", "16-letters")
"""Puzzles of the gallery on boards that no rule's own example has."""

SEVERAL = ("toroidal", "non-consecutive", "whisper", "cage", "edge-sum", "equal-sum", "greater")
"""Rules whose examples, between them, take most techniques and little time."""


@lru_cache
def walked_example(rule: str) -> tuple[Puzzle, Walk]:
    """A rule's own example and its walk."""
    puzzle = puzzle_from_text(BY_NAME[rule].example)
    return puzzle, walk(puzzle)


def facts(walked: Walk) -> list[tuple[Technique, int]]:
    """What a walk's grade looks at."""
    return [(each.technique, each.ways) for each in walked.rounds]


# --- truth


@EVERY_RULE
def test_a_walk_of_a_puzzle_with_many_answers_keeps_them_all(rule):
    puzzle, answer = loose(rule)
    known = [answer, *some_answers(puzzle, 3, random.Random(rule))]
    assert list(untruths(puzzle, walk(puzzle), known)) == []


@EVERY_RULE
def test_a_walk_of_a_puzzle_with_one_answer_leads_nowhere_else(rule):
    puzzle, walked = walked_example(rule)
    assert list(untruths(puzzle, walked, prove(puzzle).answers)) == []


@pytest.mark.parametrize("name", BOARDS)
def test_walks_on_several_grids_with_holes_and_with_letters(name):
    puzzle = read_puzzle(ROOT / f"books/gallery/puzzles/houses/{name}.yaml")
    assert list(untruths(puzzle, walk(puzzle), prove(puzzle).answers)) == []


# --- the same walk


@EVERY_RULE
@settings(effort(0.04), phases=(Phase.generate,))
@given(data=st.data())
def test_a_puzzle_in_disguise_is_walked_in_the_same_rounds(rule, data):
    puzzle = tight(rule)
    walked = walk(puzzle)
    form = walk(moved(puzzle, data.draw(moves(puzzle.board, survived(puzzle)))))
    assert facts(form) == facts(walked)
    assert grade(form) == grade(walked)


@EVERY_RULE
def test_a_walk_goes_the_same_way_again(rule):
    puzzle = tight(rule)
    assert walk(puzzle) == walk(puzzle)


def told(rules) -> str:
    """The walks of some rules' examples to their last reason, in one number."""
    return sha256("\n".join(repr(walked_example(rule)[1]) for rule in rules).encode()).hexdigest()


@pytest.mark.parametrize("seed", ["1", "2"])
def test_another_process_with_other_hashes_goes_the_same_way(seed):
    tell = f"from tests.verify.walk.test_truth import told; print(told({SEVERAL}))"
    done = subprocess.run(
        [sys.executable, "-c", tell],
        env={**os.environ, "PYTHONHASHSEED": seed},
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == told(SEVERAL)


# --- untruths are seen

FOUR = plain(4, (2, 2), (1, 0, 0, 0, 0, 0, 3, 0, 0, 4, 0, 0, 0, 0, 0, 2))


def seen_in(step: Step) -> set[str]:
    """What is not true of one step of a small puzzle, by the first words of each complaint."""
    (answer,) = prove(FOUR).answers
    alone = Walk((Round(step.technique, (step,), 1),), (), finished=False)
    return {each.partition(":")[0] for each in untruths(FOUR, alone, [answer])} - {
        "the steps do not lead to the marks at the end"
    }


@pytest.fixture
def single() -> Step:
    """The first step of the small puzzle, which is true."""
    step = walk(FOUR).rounds[0].steps[0]
    assert step.technique is Technique.HIDDEN_SINGLE
    assert seen_in(step) == set()
    return step


def test_a_wrong_digit_is_seen(single):
    ((cell, digit),) = single.places
    wrong = replace(single, places=((cell, digit % 4 + 1),))
    assert {"an answer is lost", "hidden single"} <= seen_in(wrong)


def test_a_strike_that_some_answer_needs_is_seen(single):
    ((cell, digit),) = single.places
    wrong = replace(single, places=(), removes=((cell, bit(digit)),))
    assert {"an answer is lost", "hidden single"} <= seen_in(wrong)


def test_a_reason_left_out_is_seen(single):
    for less in (
        replace(single.because, houses=()),
        replace(single.because, cells=()),
        replace(single.because, digits=0),
    ):
        assert seen_in(replace(single, because=less)) == {"hidden single"}


def test_a_house_that_the_puzzle_has_not_is_seen(single):
    more = replace(single.because, houses=(*single.because.houses, House("row", (0, 5), False)))
    assert seen_in(replace(single, because=more)) == {"reasons from elsewhere"}


def test_what_is_struck_already_is_seen():
    because = Because((0,), bit(1))
    again = Step(Technique.NAKED_SINGLE, because, removes=((0, bit(2)),))
    assert seen_in(again) == {"no news"}


def test_steps_that_lead_elsewhere_are_seen():
    short = replace(walk(FOUR), rounds=())
    assert list(untruths(FOUR, short, ())) == ["the steps do not lead to the marks at the end"]
