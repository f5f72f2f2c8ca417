"""Hints say where to look, then what for, and only then what follows."""

import re

import pytest

from layout.language.words import languages, read_words
from layout.telling.hints import hints
from layout.telling.telling import tell_walk
from tests.support.boards import plain
from tests.support.checkout import BOOKS
from tests.support.told import told_example
from verify.manifest.read import read_puzzle
from verify.rules import RULES
from verify.walk.facts.step import Technique
from verify.walk.told.head import head_of
from verify.walk.told.path import told_path

SALTMARSH = BOOKS / "saltmarsh" / "puzzles"
HOLES = re.compile(r"\{([^}]*)\}")
CELLS = re.compile(r"\br\d+c\d+\b")
LINES = re.compile(r"\b(row|column|Zeile|Spalte) \d+\b")

SYMBOLS = {"digit", "digits"}
OF_MARKS = {Technique.MARK, Technique.ARRANGEMENTS}
OF_CELLS = {
    Technique.NAKED_SINGLE,
    Technique.WING,
    Technique.SHORT_IF,
    Technique.LONG_IF,
    Technique.EITHER_WAY,
    Technique.DEEP_IF,
}


def places_of(technique):
    """The holes that a hint at a technique may have."""
    if technique in OF_MARKS:
        return {"mark"}
    return {"cell"} if technique in OF_CELLS else {"in", "lines"}


@pytest.mark.parametrize("language", languages())
def test_every_technique_has_hints_that_name_places_alone(language):
    says = read_words(language).hints.says
    for technique in Technique:
        for sentence in says[technique.value.replace(" ", "-")]:
            assert set(HOLES.findall(sentence)) <= places_of(technique) | SYMBOLS, sentence
    for sentence in says["arrangements-in-a-house"]:
        assert set(HOLES.findall(sentence)) <= {"mark", "in"} | SYMBOLS


def hints_of(rule, language="en", most=6, turn=0):
    puzzle, path = told_example(rule)
    return hints(puzzle, path, read_words(language), most, turn)


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("rule", [rule.name for rule in RULES if rule.name != "anti-queen"])
def test_only_the_third_hint_names_a_digit(rule, language):
    """Where two hints are alike one of them is left out, so that the third may come sooner."""
    puzzle, path = told_example(rule)
    telling = tell_walk(puzzle, path, read_words(language))
    follows = {told.words for told in telling.steps}
    for turn in range(3):
        for hint in hints_of(rule, language, 5, turn):
            bare = LINES.sub("", CELLS.sub("", hint))
            assert hint in follows or not re.search(r"\d", bare), hint
            assert hint[0].isupper() or CELLS.match(hint)
            assert hint.endswith((".", "?"))


def test_no_letter_is_named_before_the_third():
    puzzle = read_puzzle(SALTMARSH / "dry-shod" / "03-spelt.yaml")
    where, what, *_ = hints(puzzle, told_path(puzzle), read_words("en"), 5)
    for hint in (where, what):
        assert not re.search(r"\b[SLUICE]\b", hint)
    assert "symbol" in what


def test_hints_rise_from_the_break_in_to_the_crux():
    assert hints_of("thermometer") == (
        "Look at the thermometer from r1c5.",
        "Ask what r4c6 can still hold, and what the thermometer from r1c5 makes of that.",
        "r4c6 is not 5 (5 in its box). The thermometer from r1c5 rises over 5 cells: r1c5 is 1,"
        " r2c6 is 2, r3c6 is 3 and r4c6 is 4.",
        "When you get no further, look at the thermometer from r6c2.",
        "Count along the thermometer from r6c2: each cell needs room for those before it and those"
        " beyond.",
        "The thermometer from r6c2 rises over 5 cells: r2c2 is 5 or 6, r3c1 is 4 or 5, r4c1 is 3 or"
        " 4, r5c1 is 2 or 3 and r6c2 is 1 or 2.",
    )


@pytest.mark.parametrize("rule", ["thermometer", "cage", "boxes", "whisper"])
def test_the_third_hint_is_the_step_itself(rule):
    puzzle, path = told_example(rule)
    telling, head = tell_walk(puzzle, path, read_words("en")), head_of(path.steps)
    told = hints_of(rule, most=9)
    numbers = [each for each in (head.break_in, head.crux) if each is not None]
    assert {telling.steps[number].words for number in numbers} <= set(told)
    assert len(told) == (3 if head.break_in == head.crux else 6)


def test_a_puzzle_of_plain_singles_has_hints_to_its_first_digit():
    assert hints_of("rows") == (
        "Look in row 4.",
        "In row 4, one digit has a single cell left.",
        "In row 4, 4 goes to r4c3.",
    )


def test_when_to_look_is_said():
    (first, *_) = hints_of("regions")
    assert first.startswith("When plain singles get no further, look ")
    (first, *_) = hints_of("boxes")
    assert first.startswith("When you get no further, look ")


def test_no_more_are_given_than_asked_for_and_turns_vary_the_words():
    puzzle = read_puzzle(SALTMARSH / "the-flood" / "07-jetty.yaml")
    path, words = told_path(puzzle), read_words("en")
    assert hints(puzzle, path, words, 0) == ()
    assert len(hints(puzzle, path, words, 1)) == 1
    assert hints(puzzle, path, words, 3, turn=0) != hints(puzzle, path, words, 3, turn=1)


def test_without_a_step_there_are_none():
    puzzle = plain(4, (2, 2))
    assert hints(puzzle, told_path(puzzle), read_words("en"), 3) == ()
