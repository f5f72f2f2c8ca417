"""Whole walks in words: paragraphs, summary, ends."""

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from layout.language.words import languages, read_words
from layout.telling.telling import FIRST_REASONED, MOST_REASONED, TOLD_QUICKLY, tell_walk
from tests.support.boards import classic, plain
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import prove
from verify.rules import BY_NAME
from verify.walk.facts.step import Technique
from verify.walk.walk import walk

# Of our own: `tests.support.maker`, seed 5 with 6 givens put back; singles lead to its end.
GIVEN_MANY = classic(
    "943000000000000008200059003050068704470090080610200000000004007820003059090081200"
)
FORKED = """\
kind: latin
size: 6
rules:
  thermometer:
    - r1c1 e se
    - r1c1 s s
givens: |
  1 . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
"""
SENTENCE = re.compile(r"[A-ZÄÖÜ].*\.$")


def told(puzzle, language="en"):
    return tell_walk(puzzle, walk(puzzle), read_words(language))


@cache
def walked_example(name):
    puzzle = puzzle_from_text(BY_NAME[name].example)
    return puzzle, walk(puzzle)


def told_example(name, language="en"):
    puzzle, walked = walked_example(name)
    return tell_walk(puzzle, walked, read_words(language))


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("rule", BY_NAME)
def test_whole_sentences_of_every_example(rule, language):
    telling = told_example(rule, language)
    paragraphs = [each.words for each in telling.paragraphs]
    ends = [telling.end] if telling.end else []
    for text in (telling.summary, *paragraphs, *(each.words for each in telling.steps), *ends):
        assert SENTENCE.match(text), text
        assert not set("{}") & set(text), text
        assert "  " not in text
        assert ".." not in text


@pytest.mark.parametrize("rule", BY_NAME)
def test_paragraphs_are_numbered_and_hold_every_step_once(rule):
    telling = told_example(rule)
    numbers = [each.number for each in telling.paragraphs]
    assert numbers == list(range(1, len(numbers) + 1))
    steps = [step for each in telling.paragraphs for step in each.steps]
    assert steps == [each.step for each in telling.steps]


@pytest.mark.parametrize("rule", BY_NAME)
def test_no_candidate_is_struck_twice(rule):
    telling = told_example(rule)
    gone = [
        (cell, digit)
        for each in telling.steps
        for cell, mask in each.removes
        for digit in range(1, 26)
        if mask >> digit & 1
    ]
    assert len(gone) == len(set(gone))


def test_the_ranges_of_thermometers_are_told_one_after_the_other():
    first = told_example("thermometer").paragraphs[0].words
    assert first == (
        "The thermometer from r3c3 has 2 cells, which run 1-4, 2-6."
        " The thermometer from r6c2 has 5 cells, which run 1, 2, 3, 4, 5-6."
        " The thermometer from r1c5 has 5 cells, which run 1, 2, 3, 4, 6."
    )


def test_a_walk_of_placements_alone_says_so_and_ends_quickly():
    telling = told(GIVEN_MANY)
    assert telling.summary == "Every step places a digit: it takes no more than looking."
    last = telling.paragraphs[-1]
    assert last.words.startswith("The rest follows one by one: ")
    assert len(last.steps) == TOLD_QUICKLY
    assert len(telling.paragraphs) == 2


def test_a_single_cell_at_the_end():
    puzzle = plain(4, (2, 2), (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 0))
    telling = told(puzzle)
    assert [each.words for each in telling.paragraphs] == ["Last comes 1 in r4c4."]
    assert telling.steps[0].words == "In column 4, the last open cell is r4c4; it takes 1."


def test_the_summary_names_the_hardest_steps_by_their_number():
    telling = told_example("boxes")
    assert telling.summary == "What matters most: step 2 (locked candidates) and step 3 (wing)."
    assert telling.paragraphs[2].steps[0].technique.value == "wing"


def test_a_walk_that_gets_nowhere_says_how_far_it_got():
    telling = told(plain(4, (2, 2)))
    end = "Here the known techniques end; 16 cells are still open."
    assert (telling.paragraphs, telling.end) == ((), end)


def test_a_cell_without_a_digit_is_named():
    puzzle = plain(4, (2, 2), (1, 2, 0, 0, 0, 0, 3, 0, 0, 0, 4, 0, 0, 0, 0, 0))
    assert told(puzzle).end == "Now no digit is left for r1c3: the puzzle has no answer."


def test_placements_that_contradict_each_other():
    puzzle = plain(4, (2, 2), (3, 0, 0, 0, 1, 0, 0, 4, 0, 0, 0, 0, 0, 4, 0, 1))
    assert told(puzzle).end == "What is placed by now contradicts itself: the puzzle has no answer."


@pytest.mark.parametrize("rule", BY_NAME)
def test_puzzles_without_an_answer_are_told_as_far_as_they_go(rule):
    puzzle, _ = walked_example(rule)
    (answer,) = prove(puzzle).answers
    cell = puzzle.givens.index(0)
    givens = list(puzzle.givens)
    givens[cell] = answer[cell] % puzzle.board.digits + 1
    assert told(replace(puzzle, givens=tuple(givens))).end


def test_telling_twice_says_the_same():
    puzzle = puzzle_from_text(BY_NAME["cage"].example)
    assert told(puzzle) == told(puzzle)


def test_neighbours_that_speak_of_one_mark_share_a_sentence():
    for rule in ("thermometer", "slow-thermometer", "cage"):
        for paragraph in told_example(rule).paragraphs:
            if paragraph.steps[0].technique is Technique.MARK:
                heads = [each.split(" leaves ")[0] for each in paragraph.words.split(". ")]
                assert all(one != other for one, other in pairwise(heads) if " has " not in one)


def test_a_fork_that_leaves_less_in_several_branches_is_told_once():
    puzzle = puzzle_from_text(FORKED)
    first = told(puzzle).paragraphs[0]
    assert len(first.steps) == 2
    assert first.words.count("thermometer from r1c1") == 1


def test_of_many_placements_in_a_row_the_first_have_reasons():
    telling = told(GIVEN_MANY)
    first = telling.paragraphs[0]
    assert len(first.steps) > MOST_REASONED
    reasons, _, others = first.words.partition("As the grid fills, there follow ")
    cells = [re.findall(r"r[1-9]c[1-9]", part) for part in (reasons, others)]
    assert list(map(len, cells)) == [FIRST_REASONED, len(first.steps) - FIRST_REASONED]
