"""The told path: true, with nothing to spare, as far as the rounds, and always the same."""

import os
import random
import subprocess
import sys
from dataclasses import replace
from hashlib import sha256

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tests.support.boards import plain
from tests.support.checkout import ROOT
from tests.support.effort import effort
from tests.support.maker import with_givens
from tests.support.told import faults, needless, told_example, told_loose, told_tight
from tests.support.truths import loose, some_answers
from verify.budget import Deadline
from verify.manifest.read import read_puzzle
from verify.pencil import bit, digits_of
from verify.proof.verdict import prove
from verify.rules import RULES
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import DeadEnd, Kind, Technique, kind_of
from verify.walk.told.event import SUPPOSED, Based
from verify.walk.told.path import ToldPath, as_told, told_path
from verify.walk.walk import walk

NAMES = [rule.name for rule in RULES]
EVERY_RULE = pytest.mark.parametrize("rule", NAMES)
BOARDS = ("14-two-grids", "15-holes", "16-letters")
"""Puzzles of the gallery on boards that no rule's own example has."""

QUICK = ("cage", "greater", "even", "palindrome", "thermometer", "edge-sum", "skyscraper")
"""Rules whose examples take little time, and most kinds of steps between them."""


def gone_further(puzzle, path):
    """What the rounds know at their end and the path does not, or the other way about."""
    walked = walk(puzzle, reasons=False)
    if walked.finished:
        return path.finished != walked.finished or path.pencil != walked.pencil
    return path.finished


# --- true, and nothing to spare


@EVERY_RULE
@pytest.mark.parametrize("told", [told_example, told_tight])
def test_a_path_of_one_answer_is_true_and_leads_where_the_rounds_lead(rule, told):
    puzzle, path = told(rule)
    assert list(faults(puzzle, path, prove(puzzle).answers)) == []
    assert needless(puzzle, path) == []
    assert not gone_further(puzzle, path)


@EVERY_RULE
def test_a_path_of_many_answers_keeps_them_all(rule):
    puzzle, path = told_loose(rule)
    known = [loose(rule)[1], *some_answers(puzzle, 3, random.Random(rule))]
    assert list(faults(puzzle, path, known)) == []
    assert needless(puzzle, path) == []
    assert not gone_further(puzzle, path)
    assert all(path.pencil[cell] >> digit & 1 for answer in known for cell, digit in spots(answer))


def spots(answer):
    return ((cell, digit) for cell, digit in enumerate(answer) if digit)


@pytest.mark.parametrize("name", BOARDS)
def test_paths_on_several_grids_with_holes_and_with_letters(name):
    puzzle = read_puzzle(ROOT / f"books/gallery/puzzles/houses/{name}.yaml")
    path = told_path(puzzle)
    assert list(faults(puzzle, path, prove(puzzle).answers)) == []
    assert needless(puzzle, path) == []
    assert path.finished


@settings(effort(2), phases=(Phase.generate,))
@given(data=st.data())
def test_without_any_struck_digit_a_later_step_falls(data):
    told = data.draw(st.sampled_from([told_example, told_tight]))
    puzzle, path = told(data.draw(st.sampled_from(NAMES)))
    struck = [
        (number, cell, digit)
        for number, kept in enumerate(path.steps)
        for cell, mask in kept.step.removes
        for digit in digits_of(mask)
    ]
    if struck:
        assert not stands_without(puzzle, path, *data.draw(st.sampled_from(struck)))


def stands_without(puzzle, path, number, cell, digit):
    """Whether all steps stand where one of them leaves a digit in its cell."""
    notes = Notes(puzzle)
    for at, kept in enumerate(path.steps):
        if not kept.based.stands_on(notes.pencil):
            return False
        removes = dict(kept.step.removes)
        if at == number:
            removes[cell] &= ~bit(digit)
        notes.apply([replace(kept.step, removes=tuple(removes.items()))])
    return True


@EVERY_RULE
def test_a_step_says_why_and_does_one_thing(rule):
    """Either one digit is placed, or some are struck; no digit is struck that another one is."""
    _, path = told_example(rule)
    done = set()
    for kept in path.steps:
        step = kept.step
        assert len(step.places) + bool(step.removes) == 1
        assert step.because.cells
        assert (step.technique in SUPPOSED) == (kind_of(step.technique) is Kind.SUPPOSITION)
        gone = {(cell, digit) for cell, mask in step.removes for digit in digits_of(mask)}
        assert not gone & done
        done |= gone


# --- the same path


@pytest.mark.parametrize("rule", QUICK)
def test_a_path_is_the_same_again(rule):
    puzzle, path = told_example(rule)
    assert told_path(puzzle) == path


def in_one_number(rules):
    """The paths of some rules' examples to their last reason."""
    text = "\n".join(repr(told_example(rule)[1]) for rule in rules)
    return sha256(text.encode()).hexdigest()


@pytest.mark.parametrize("seed", ["1", "2"])
def test_another_process_with_other_hashes_finds_the_same_path(seed):
    tell = f"from tests.verify.walk.told.test_path import *; print(in_one_number({QUICK}))"
    done = subprocess.run(
        [sys.executable, "-c", tell],
        env={**os.environ, "PYTHONHASHSEED": seed},
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == in_one_number(QUICK)


# --- puzzles without an answer

NO_DIGIT = plain(4, (2, 2), (1, 2, 0, 0, 0, 0, 3, 0, 0, 0, 4, 0, 0, 0, 0, 0))
NO_PLACE = plain(4, (2, 2), (3, 0, 0, 0, 1, 0, 0, 4, 0, 0, 0, 0, 0, 4, 0, 1))


def test_a_puzzle_without_answer_ends_where_a_cell_has_no_digit():
    path = told_path(NO_DIGIT)
    assert not path.finished
    assert path.dead_end == DeadEnd(2)
    assert path.pencil[2] == 0


def test_or_where_a_digit_has_no_place():
    path = told_path(NO_PLACE)
    end = path.dead_end
    assert not path.finished
    assert end.cell is None
    assert not any(path.pencil[cell] >> end.digit & 1 for cell in end.house.cells)


def spoiled(rule):
    """A rule's example with one wrong given."""
    puzzle, _ = told_example(rule)
    (answer,) = prove(puzzle).answers
    cell = puzzle.givens.index(0)
    givens = list(puzzle.givens)
    givens[cell] = answer[cell] % puzzle.board.digits + 1
    return with_givens(puzzle, givens)


def wanted(path):
    """What must be missing for the contradiction."""
    end = path.dead_end
    if end.cell is not None:
        return [(end.cell, digit) for digit in range(1, 30)]
    return [(cell, end.digit) for cell in end.house.cells]


@pytest.mark.parametrize("rule", QUICK)
def test_it_tells_only_what_leads_to_its_contradiction(rule):
    puzzle = spoiled(rule)
    path = told_path(puzzle)
    assert not path.finished
    if path.dead_end is None:
        assert all(path.pencil[cell].bit_count() == 1 for cell in puzzle.board.cells)
        return
    notes = Notes(puzzle)
    for number, kept in enumerate(path.steps):
        assert kept.based.stands_on(notes.pencil)
        assert all(use < number for use in kept.uses)
        notes.apply([kept.step])
    assert not any(notes.pencil[cell] >> digit & 1 for cell, digit in wanted(path))
    assert list(in_vain(path)) == []


def in_vain(path):
    """The numbers of the steps that neither a later step nor the contradiction rests on."""
    used = {use for kept in path.steps for use in kept.uses}
    goal = set(wanted(path))
    for number, kept in enumerate(path.steps):
        struck = {(cell, d) for cell, mask in kept.step.removes for d in digits_of(mask)}
        placed = [
            each
            for cell, digit in kept.step.places
            for each in goal
            if each[0] == cell or each[1] == digit
        ]
        if number not in used and not struck & goal and not placed:
            yield number


# --- the ends


def test_nothing_to_go_by_is_an_empty_path():
    path = told_path(plain(4, (2, 2)))
    assert (path.steps, path.finished, path.cut_short, path.dead_end) == ((), False, False, None)


def test_a_full_grid_is_finished_without_a_step():
    path = told_path(plain(4, (2, 2), (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)))
    assert (path.steps, path.finished) == ((), True)


def test_after_the_deadline_a_path_ends_and_says_so():
    puzzle, whole = told_example("cage")
    path = told_path(puzzle, Deadline.after(-1))
    assert path.cut_short
    assert not path.finished
    assert not whole.cut_short


def test_steps_of_a_walk_as_a_path_rest_on_what_is_gone_before_them():
    puzzle, _ = told_example("greater")
    steps = list(walk(puzzle).every_step)[:9]
    path = as_told(puzzle, steps)
    assert [kept.step for kept in path.steps] == steps
    notes = Notes(puzzle)
    for kept in path.steps:
        assert kept.based.stands_on(notes.pencil)
        notes.apply([kept.step])
    assert path.pencil == tuple(notes.pencil)
    assert not path.finished


# --- faults are seen


def seen_in(puzzle, *steps, known=()):
    """The first words of all that is wrong with some steps as a path."""
    path = ToldPath(steps, (), finished=False)
    return {" ".join(each.split()[1:3]) for each in faults(puzzle, path, known)}


SINGLES = plain(4, (2, 2), (1, 0, 0, 0, 0, 0, 3, 0, 0, 4, 0, 0, 0, 0, 0, 2))


@pytest.fixture
def first():
    path = told_path(SINGLES)
    kept = path.steps[0]
    assert kept.step.technique is Technique.HIDDEN_SINGLE
    assert seen_in(SINGLES, kept) == set()
    return kept


def test_what_a_step_leaves_out_of_its_needs_is_seen(first):
    for at in range(len(first.based.needs)):
        needs = first.based.needs[:at] + first.based.needs[at + 1 :]
        less = replace(first, based=Based(first.step, needs))
        assert "hidden single:" in seen_in(SINGLES, less)


def test_a_need_that_is_not_gone_yet_is_seen(first):
    ((cell, digit),) = first.step.places
    more = replace(first, based=Based(first.step, ((cell, bit(digit)),)))
    assert "rests on" in seen_in(SINGLES, more)


def test_a_later_use_and_a_use_left_out_are_seen(first):
    assert seen_in(SINGLES, replace(first, uses=(0,))) == {"uses later"}
    path = told_path(SINGLES)
    second = next(kept for kept in path.steps if kept.uses)
    steps = [*path.steps[: path.steps.index(second)], replace(second, uses=())]
    assert "rests on" in seen_in(SINGLES, *steps)


def test_a_step_that_nothing_rests_on_is_seen():
    puzzle, path = told_example("cage")
    strikes = [number for number, kept in enumerate(path.steps) if kept.step.removes]
    spare = as_told(puzzle, [path.steps[strikes[0]].step])
    assert needless(puzzle, spare) == [0]
