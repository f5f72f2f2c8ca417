"""A puzzle for each day: by grade, in the order of the bank, none twice in any disguise."""

import random

import pytest

from layout.jobs.common.choosing import ANY, Shortage, TooFew, choose, know
from layout.jobs.common.proving import MayNotBePrinted
from tests.support.seasons import ANSWER, BANK, small_bank
from verify.disguise.forms import forms
from verify.manifest.bank import bank_from_lines, read_bank
from verify.proof.verdict import prove
from verify.puzzle import Puzzle


def puzzles_of(lines):
    return [each for each in bank_from_lines(lines) if isinstance(each, Puzzle)]


def wishes(*words):
    return [frozenset({word}) for word in words]


def small(count):
    return puzzles_of(small_bank(count))


@pytest.fixture(scope="module")
def bank():
    return [puzzle for puzzle, _ in zip(read_bank(BANK), range(10), strict=False)]


@pytest.fixture(scope="module")
def grades(bank):
    return [know(puzzle).grade.value for puzzle in bank]


def test_days_take_the_first_unused_puzzle_of_their_grade(bank, grades):
    words = ["steep", "calm", "steep"]
    steep = [puzzle.id for puzzle, grade in zip(bank, grades, strict=True) if grade == "steep"]
    calm = [puzzle.id for puzzle, grade in zip(bank, grades, strict=True) if grade == "calm"]
    chosen = choose(wishes(*words), bank, set())
    assert [known.puzzle.id for known in chosen] == [steep[0], calm[0], steep[1]]
    assert [known.grade.value for known in chosen] == words


def test_a_day_of_any_grade_leaves_the_others_what_they_need(bank, grades):
    scarce = grades.count("steep")
    chosen = choose([ANY, *wishes("steep") * scarce, ANY], bank, set())
    assert chosen[0].grade.value != "steep"
    assert len({known.canonical for known in chosen}) == len(chosen)


def test_no_disguise_of_a_used_puzzle_is_chosen():
    originals = small(4)
    disguised = [
        random.Random(seed).choice(forms(puzzle, prove(puzzle).answers[0], 9)[1:])
        for seed, puzzle in enumerate(originals)
    ]
    fresh = small(6)[4:]
    used = {know(originals[0]).canonical}
    bank = [*originals[1:], *disguised, *fresh]
    chosen = choose([ANY] * 5, bank, used)
    assert [known.puzzle for known in chosen] == [*originals[1:], *fresh]


def test_a_bank_that_runs_dry_tells_what_is_short():
    bank = [*small(3), *forms(small(1)[0], ANSWER, 3)[1:]]
    with pytest.raises(TooFew) as raised:
        choose([*wishes("calm") * 5, *wishes("steep") * 2, ANY], bank, set())
    calm, steep, any_ = raised.value.shortages
    assert calm == Shortage(frozenset({"calm"}), 2, 5)
    assert (steep, any_) == (Shortage(frozenset({"steep"}), 2, 2), Shortage(ANY, 1, 1))
    assert raised.value.disguised == 2


def test_puzzles_without_one_answer_are_refused_together():
    open_lines = ["0" * 16, "11" + "0" * 14]
    with pytest.raises(MayNotBePrinted) as raised:
        choose([ANY] * 2, puzzles_of([*open_lines, *small_bank(2)]), set())
    assert len(raised.value.lines) == 2


def test_a_puzzle_far_behind_all_that_is_needed_is_not_looked_at():
    lines = [*small_bank(2), *["0" * 16] * 100]
    first = puzzles_of([*small_bank(2)] * 40 + lines)
    assert len(choose([ANY] * 2, first, set())) == 2
