"""Whole walks in words: what they are about, paragraphs, ends."""

import re

import pytest

from layout.language.words import languages, read_words
from layout.telling.level import Level
from layout.telling.telling import GOING_ON, MOST_PLACED, MOST_STRIKES, tell_walk
from tests.support.boards import classic, plain
from tests.support.maker import with_givens
from tests.support.told import told_example
from verify.proof.verdict import prove
from verify.rules import BY_NAME
from verify.walk.told.head import head_of
from verify.walk.told.path import told_path

# Of our own: `tests.support.maker`, seed 5 with 6 givens put back; singles lead to its end.
GIVEN_MANY = classic(
    "943000000000000008200059003050068704470090080610200000000004007820003059090081200"
)
QUICK = ("rows", "boxes", "thermometer", "cage", "even", "whisper", "skyscraper", "greater")
SLOW = "anti-queen"


def told(puzzle, language="en", level=Level.WHOLE):
    return tell_walk(puzzle, told_path(puzzle), read_words(language), level)


def told_of(rule, language="en", level=Level.WHOLE):
    puzzle, path = told_example(rule)
    return tell_walk(puzzle, path, read_words(language), level)


# --- what a walk is about


def test_a_walk_of_plain_singles_says_so_and_ends_quickly():
    telling = told(GIVEN_MANY)
    assert telling.summary == "Every step places a digit: it takes no more than looking."
    last = telling.paragraphs[-1]
    assert last.words.startswith("From here on plain singles fill the grid, beginning with ")
    assert len(telling.paragraphs) <= 4


@pytest.mark.parametrize(
    ("rule", "summary"),
    [
        ("thermometer", "Everything hangs on the thermometer from r1c5. It breaks open in step 1."),
        (
            "boxes",
            "Look first in row 6. It breaks open in step 2, which is also the hardest (wing).",
        ),
        (
            "diagonals",
            "Look first in row 2. It breaks open in step 2; the hardest step is number 1"
            " (hidden pair).",
        ),
    ],
)
def test_the_summary_names_the_mark_or_house_and_the_hardest_step(rule, summary):
    assert told_of(rule).summary == summary


@pytest.mark.parametrize("rule", QUICK)
def test_the_numbers_of_the_summary_are_those_of_the_paragraphs(rule):
    telling = told_of(rule)
    head = head_of(told_example(rule)[1].steps)
    numbers = [int(each) for each in re.findall(r"(?:step|number) (\d+)", telling.summary)]
    expected = [
        telling.steps[each].paragraph for each in (head.break_in, head.crux) if each is not None
    ]
    assert numbers == list(dict.fromkeys(expected))[: len(numbers)]


# --- paragraphs


@pytest.mark.parametrize("rule", QUICK)
def test_paragraphs_are_not_too_long(rule):
    telling = told_of(rule)
    for each in telling.paragraphs[:-1]:
        told = [step for step in telling.steps if step.paragraph == each.number]
        assert sum(not (step.joined or step.step.places) for step in told) <= MOST_STRIKES
        assert sum(bool(step.places) for step in each.steps) <= 2 * MOST_PLACED


@pytest.mark.parametrize("rule", QUICK)
def test_after_a_digit_only_a_mark_or_a_sum_goes_on_in_the_same_paragraph(rule):
    for each in told_of(rule).paragraphs[:-1]:
        placed = False
        for step in each.steps:
            assert not placed or step.places or step.technique in GOING_ON
            placed = placed or bool(step.places)


@pytest.mark.parametrize("rule", QUICK)
def test_steps_are_numbered_and_their_strikes_are_news(rule):
    telling = told_of(rule)
    assert [each.number for each in telling.steps] == list(range(1, len(telling.steps) + 1))
    gone = [
        (cell, digit)
        for each in telling.steps
        for cell, mask in each.removes
        for digit in range(1, 26)
        if mask >> digit & 1
    ]
    assert len(gone) == len(set(gone))


def test_the_run_at_the_end_is_one_sentence_with_what_is_pushed_on_the_way():
    last = told_of("thermometer").paragraphs[-1].words
    assert last.startswith("From here on plain singles fill the grid, beginning with ")
    first, _, pushes = last.partition(" On the way: ")
    assert len(re.findall(r"r\dc\d", first)) == 2
    assert pushes.endswith(".")


def test_a_single_cell_to_fill():
    puzzle = plain(4, (2, 2), (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 0))
    telling = told(puzzle)
    assert [each.words for each in telling.paragraphs] == ["In the box of r3c3, 1 goes to r4c4."]
    assert telling.steps[0].words == telling.paragraphs[0].words


def test_a_long_walk_of_singles_alone_is_told_up_to_its_last_third():
    telling = told(GIVEN_MANY)
    rest = telling.paragraphs[-1]
    assert len(telling.steps) - len(rest.steps) == round(0.6 * len(telling.steps))


# --- levels


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("rule", QUICK)
def test_moments_are_the_break_in_the_crux_and_the_last_strike(rule, language):
    whole, moments = told_of(rule, language), told_of(rule, language, Level.MOMENTS)
    head = head_of(told_example(rule)[1].steps)
    wanted = [each for each in (head.break_in, head.crux, head.last) if each is not None]
    numbers = sorted({whole.steps[each].paragraph for each in wanted})
    assert [each.number for each in moments.paragraphs] == (numbers or [len(whole.paragraphs)])
    assert moments.summary == whole.summary


def test_a_digit_that_a_push_reads_off_has_a_sentence_of_its_own_where_each_is_told():
    every = told_of("thermometer", level=Level.EVERY)
    assert any(re.fullmatch(r"So r\dc\d is \d\.", each.words) for each in every.paragraphs)
    german = told_of("thermometer", "de", Level.EVERY)
    assert any(re.fullmatch(r"Also steht in r\dc\d die \d\.", e.words) for e in german.paragraphs)


# --- ends


def test_a_walk_that_gets_nowhere_says_how_far_it_got():
    telling = told(plain(4, (2, 2)))
    end = "Here the known techniques end; 16 cells are still open."
    assert (telling.paragraphs, telling.end, telling.finished) == ((), end, False)


def test_a_cell_without_a_digit_is_named():
    puzzle = plain(4, (2, 2), (1, 2, 0, 0, 0, 0, 3, 0, 0, 0, 4, 0, 0, 0, 0, 0))
    telling = told(puzzle)
    assert telling.end == "No digit is left for r1c3 (1 and 2 in its row, 3 and 4 in its column)."
    assert not telling.finished


def test_a_digit_without_a_place_is_named():
    puzzle = plain(4, (2, 2), (3, 0, 0, 0, 1, 0, 0, 4, 0, 0, 0, 0, 0, 4, 0, 1))
    assert told(puzzle).end == "4 has no place left in row 1."


@pytest.mark.parametrize("rule", [rule for rule in BY_NAME if rule != SLOW])
def test_puzzles_without_an_answer_are_told_as_far_as_they_go(rule):
    puzzle, path = told_example(rule)
    answer = prove(puzzle).answers[0]
    cell = puzzle.givens.index(0)
    givens = list(puzzle.givens)
    givens[cell] = answer[cell] % puzzle.board.digits + 1
    telling = told(with_givens(puzzle, givens))
    assert telling.end
    assert not told_of(rule).end
    assert path.finished


def test_telling_twice_says_the_same():
    assert told_of("cage") == told_of("cage")
