"""How hard: the grade of walks made up, of disguised puzzles, and of published lists."""

from dataclasses import replace
from functools import lru_cache
from math import log2
from statistics import mean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.boards import NEEDS_A_WING, classic
from tests.support.checkout import ROOT
from tests.support.draws import moves
from tests.support.effort import effort
from tests.support.published import RISING, listed, needs_cases, spread
from tests.support.sowing import random_minimal
from tests.support.spearman import spearman
from verify.disguise.forms import moved, survived
from verify.manifest.read import puzzle_from_text
from verify.proof.propagate import penciled
from verify.rules import BY_NAME
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.report.grade import EFFORT, GRADED, SUPPOSED, Band, Grade, grade
from verify.walk.walk import Round, Walk, walk


def taken(technique, ways, depth=1):
    """A round of one technique; what is supposed in it is followed so many rounds."""
    return Round(technique, (Step(technique, Because(), depth=depth),), ways)


ROUNDS = st.builds(
    taken,
    st.sampled_from(list(Technique)),
    st.integers(min_value=1, max_value=81),
    st.integers(min_value=1, max_value=8),
)
MANY_ROUNDS = st.lists(ROUNDS, min_size=1, max_size=60)
OTHERS = [each for each in Technique if each not in SUPPOSED and each is not Technique.MARK]
OTHER_ROUNDS = MANY_ROUNDS.map(
    lambda rounds: [each for each in rounds if each.technique in OTHERS]
).filter(bool)
"""What is neither a mark by itself nor supposed."""

SINGLES = (Technique.LAST_CELL, Technique.HIDDEN_SINGLE, Technique.NAKED_SINGLE)


def of(rounds, finished=True):
    return Walk(tuple(rounds), (), finished)


def graded(*techniques, ways=9):
    return grade(of(taken(technique, ways) for technique in techniques))


def place(band):
    return GRADED.index(band)


# --- walks made up


def test_every_technique_has_an_effort_and_efforts_rise():
    assert set(EFFORT) == set(Technique)
    assert list(EFFORT.values()) == sorted(set(EFFORT.values()))


@pytest.mark.parametrize(
    ("band", "techniques"),
    [
        ("calm", [*SINGLES, Technique.MARK]),
        ("steady", [Technique.LOCKED, Technique.NAKED_PAIR, Technique.HIDDEN_PAIR]),
        ("stiff", [Technique.NAKED_TRIPLE, Technique.TWO_LINE_FISH, Technique.ARRANGEMENTS]),
        ("stiff", [Technique.ORDER, Technique.HOUSE_SUM, Technique.HIDDEN_QUAD]),
        ("steep", [Technique.WING, Technique.COLOUR_CHAIN, Technique.SHORT_IF]),
        ("steep", [Technique.LONG_IF, Technique.EITHER_WAY, Technique.DEEP_IF]),
    ],
)
def test_one_round_of_a_technique_stays_in_its_band(band, techniques):
    for technique in techniques:
        found = graded(*SINGLES, technique)
        assert found.band.value == band
        assert found.hardest is max(*SINGLES, technique, key=lambda each: EFFORT[each])


# What each technique adds, and what follows from it, is laid down by this house: no source.
EFFORTS = {
    "last cell": 0.0,
    "hidden single": 0.2,
    "naked single": 0.6,
    "mark alone": 0.8,
    "locked candidates": 2.0,
    "naked pair": 2.4,
    "hidden pair": 2.7,
    "arrangements": 4.0,
    "order within a house": 4.1,
    "naked triple": 4.2,
    "hidden triple": 4.4,
    "house sum": 4.5,
    "two-line fish": 4.6,
    "naked quad": 4.7,
    "hidden quad": 4.9,
    "wing": 6.0,
    "colour chain": 6.3,
    "three-line fish": 6.4,
    "four-line fish": 6.6,
    "short if": 6.8,
    "long if": 8.0,
    "either way": 8.4,
    "deep if": 9.0,
}
BANDS = {"calm": 0, "steady": 2, "stiff": 4, "steep": 6, "severe": 8}
"""Where each band starts; it ends where the next one starts, and the last one does not end."""


def band_from(score):
    return max((start, band) for band, start in BANDS.items() if start <= score)[1]


def resistance(rounds):
    """How often marks are asked, shared by what opens then; rounds of other techniques open it."""
    whole, asked = 0, 0
    for each in rounds:
        if each.technique is Technique.MARK:
            asked += 1
        else:
            whole, asked = whole + asked / each.ways, 0
    return whole


@given(MANY_ROUNDS)
def test_marks_count_by_what_they_open(rounds):
    easy = [each for each in rounds if each.technique in (*SINGLES, Technique.MARK)]
    found = grade(of([taken(Technique.MARK, 1), *easy]))
    told = resistance([taken(Technique.MARK, 1), *easy])
    assert found.score == pytest.approx(0.8 + 4.6 * told / (told + 1.8), abs=0.05 + 1e-9)
    assert found.band in (Band.CALM, Band.STEADY, Band.STIFF)


@given(MANY_ROUNDS)
def test_suppositions_count_by_what_is_followed(rounds):
    rounds = [taken(Technique.SHORT_IF, 3), *rounds]
    supposed = [each for each in rounds if each.technique in SUPPOSED]
    told = sum(
        each.steps[0].depth * (2 if each.technique is Technique.EITHER_WAY else 1)
        for each in supposed
    )
    found = grade(of(rounds))
    assert found.score == pytest.approx(6.2 + 0.5 * log2(1 + told), abs=0.05 + 1e-9)
    assert place(found.band) >= place(Band.STEEP)


def test_of_one_round_the_supposition_counts_that_is_soonest_followed():
    steps = tuple(Step(Technique.LONG_IF, Because(), depth=depth) for depth in (5, 3, 8))
    assert grade(of([Round(Technique.LONG_IF, steps, 3)])).score == 7.2


@given(OTHER_ROUNDS)
def test_the_score_is_the_sum_that_contributors_are_told(rounds):
    efforts = [EFFORTS[each.technique.value] for each in rounds]
    hardest = max(efforts)
    hard = [
        each.ways
        for each, effort in zip(rounds, efforts, strict=True)
        if effort and band_from(effort) == band_from(hardest)
    ]
    score = hardest + 0.7 * len(hard) / (len(hard) + 4) + 0.5 * len(rounds) / (len(rounds) + 30)
    score += 0.5 / min(hard) if hard else 0
    found = grade(of(rounds))
    assert found.score == pytest.approx(score, abs=0.05 + 1e-9)
    assert found.band.value == band_from(found.score)
    assert EFFORTS[found.hardest.value] == hardest


HIDDEN, NAKED, WING = Technique.HIDDEN_SINGLE, Technique.NAKED_SINGLE, Technique.WING


@pytest.mark.parametrize(
    ("rounds", "score"),
    [
        # Worked out by hand: technique + toil + tightness + length.
        ([Round(Technique.LAST_CELL, (), 1)] * 20, 0.2),  # 0 + 0 + 0 + 0.2
        ([Round(HIDDEN, (), 1)], 0.9),  # 0.2 + 0.14 + 0.5 + 0.016
        # 0.2 + 0.35 + 0.5 + 0.25
        ([Round(HIDDEN, (), 1)] * 4 + [Round(Technique.LAST_CELL, (), 1)] * 26, 1.3),
        ([Round(HIDDEN, (), 5)] * 36, 1.2),  # 0.2 + 0.63 + 0.1 + 0.273
        ([Round(WING, (), 50)] + [Round(HIDDEN, (), 1)] * 29, 6.4),  # 6 + 0.14 + 0.01 + 0.25
        ([Round(WING, (), 50)] * 396, 7.2),  # 6 + 0.693 + 0.01 + 0.465
        # Marks: 0.8 + 4.6 s / (s + 1.8), with s of 1/9, 1/2 and 9.
        ([taken(Technique.MARK, 1), Round(NAKED, (), 9)], 1.1),
        ([*[taken(Technique.MARK, 1)] * 2, Round(NAKED, (), 4)], 1.8),
        ([taken(Technique.MARK, 1), Round(NAKED, (), 1)] * 9, 4.6),
        # Suppositions: 6.2 + log2(1 + f) / 2, with f of 1, 8 and 48.
        ([taken(Technique.SHORT_IF, 1)], 6.7),
        ([taken(Technique.EITHER_WAY, 1, 4)], 7.8),
        ([taken(Technique.DEEP_IF, 1, 8)] * 6 + [Round(WING, (), 1)] * 24, 9.0),
    ],
)
def test_scores_worked_out_by_hand(rounds, score):
    assert grade(of(rounds)).score == score


def test_contributors_are_told_the_same_efforts():
    told = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = told.partition("| band | score | technique")[2].partition("| ungraded")[0]
    found = {}
    for line in table.splitlines()[2:]:
        _, _, names, efforts = (part.strip() for part in line.strip("|").split("|"))
        if "more" not in efforts and efforts:
            found |= zip(names.split(", "), map(float, efforts.split(", ")), strict=True)
    seen = {each.value for each in Technique if each not in SUPPOSED}
    assert found == {name: effort for name, effort in EFFORTS.items() if name in seen}


def test_no_walk_of_hidden_singles_is_too_long_to_be_calm():
    found = graded(*[Technique.HIDDEN_SINGLE] * 600, ways=1)
    assert found.band is Band.CALM


def test_marks_and_singles_alone_are_never_more_than_stiff():
    found = graded(*[Technique.MARK, Technique.NAKED_SINGLE] * 300, ways=1)
    assert found.band is Band.STIFF


@given(OTHER_ROUNDS)
def test_length_and_tightness_move_a_puzzle_by_one_band_at_most(rounds):
    found = grade(of(rounds))
    alone = place(graded(found.hardest, ways=81).band)  # one loose round: as easy as can be
    assert alone <= place(found.band) <= alone + 1


@given(MANY_ROUNDS)
def test_bands_follow_the_score_and_the_score_has_one_decimal(rounds):
    found = grade(of(rounds))
    assert found.score is not None
    assert found.score == round(found.score, 1)
    assert place(found.band) == min(int(found.score / 2), 4)


@given(OTHER_ROUNDS, st.data())
def test_the_order_of_the_rounds_does_not_count(rounds, data):
    assert grade(of(rounds)) == grade(of(data.draw(st.permutations(rounds))))


@given(MANY_ROUNDS)
def test_more_of_the_hardest_rounds_and_fewer_ways_make_nothing_easier(rounds):
    def score(some):
        return grade(of(some)).score

    hard = [each for each in rounds if each.technique is grade(of(rounds)).hardest]
    tight = [replace(each, ways=1) for each in rounds]
    assert score([*rounds, *hard]) >= score(rounds)
    assert score(tight) >= score(rounds)


def test_a_walk_that_ends_early_is_ungraded():
    hard = taken(Technique.SHORT_IF, 3)
    assert grade(of([hard], finished=False)) == Grade(Band.UNGRADED, None, Technique.SHORT_IF)
    assert grade(of([], finished=False)) == Grade(Band.UNGRADED, None, None)


def test_a_puzzle_with_nothing_left_to_do_is_as_calm_as_can_be():
    assert grade(of([])) == Grade(Band.CALM, 0.0, None)


# --- puzzles


def test_a_thermometer_puzzle_that_falls_by_ranges_and_singles():
    puzzle = puzzle_from_text(BY_NAME["thermometer"].example, "thermometer.yaml")
    walked = walk(puzzle)
    assert {each.technique for each in walked.rounds} <= {*SINGLES, Technique.MARK}
    assert grade(walked).band in (Band.CALM, Band.STEADY)


def test_a_puzzle_with_many_answers_is_ungraded():
    assert grade(walk(classic("0" * 81))) == Grade(Band.UNGRADED, None, None)


@lru_cache
def puzzle_and_grade(rule, size, seed):
    """A puzzle of one rule, or a classic one, with its grade."""
    puzzle = random_minimal(rule, size, seed) if rule else classic(NEEDS_A_WING)
    return puzzle, grade(walk(puzzle, reasons=False))


@pytest.mark.parametrize(
    ("rule", "size"),
    [
        ("", 9),
        ("boxes", 9),
        ("cage", 6),
        ("even", 9),
        ("diagonals", 6),
        ("thermometer", 6),
        ("whisper", 6),
        ("renban", 6),
        ("arrow", 6),
        ("greater", 6),
        ("anti-knight", 6),
    ],
)
@effort(0.2)
@given(data=st.data())
def test_a_disguised_puzzle_has_the_same_grade(rule, size, data):
    puzzle, before = puzzle_and_grade(rule, size, data.draw(st.integers(1, 3)))
    form = moved(puzzle, data.draw(moves(puzzle.board, survived(puzzle))))
    assert sum(map(int.bit_count, penciled(form))) == sum(map(int.bit_count, penciled(puzzle)))
    assert grade(walk(form, reasons=False)) == before


# --- published lists

SAMPLE = 25


@lru_cache
def grades_of(name):
    """The grades of an even sample of one list."""
    sample = spread(listed(name), SAMPLE)
    return [grade(walk(classic(puzzle), reasons=False)) for puzzle in sample]


def or_past_all(found):
    """The score; an ungraded puzzle counts for more than any score there is."""
    return found.score if found.score is not None else 11.0


@needs_cases
def test_scores_rise_from_the_easiest_published_list_to_the_hardest():
    means = [mean(map(or_past_all, grades_of(name))) for name in RISING]
    assert means == sorted(set(means))


@needs_cases
def test_scores_rank_puzzles_as_their_lists_do():
    lists = [at for at, name in enumerate(RISING) for _ in grades_of(name)]
    scores = [or_past_all(found) for name in RISING for found in grades_of(name)]
    assert spearman(lists, scores) > 0.85


@needs_cases
def test_the_lists_at_either_end_lie_in_the_bands_at_either_end():
    assert {found.band for found in grades_of("easy50")} <= {Band.CALM, Band.STEADY}
    assert {found.band for found in grades_of("hard375")} <= {Band.SEVERE, Band.UNGRADED}
