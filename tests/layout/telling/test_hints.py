"""Hints say where to look and what for, and give no digit away."""

import re
from functools import cache

import pytest

from layout.language.words import languages, read_words
from layout.telling.hints import hints
from tests.support.checkout import BOOKS
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.rules import RULES
from verify.walk.facts.step import Technique
from verify.walk.walk import walk

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


@cache
def walked(text):
    puzzle = puzzle_from_text(text)
    return puzzle, walk(puzzle)


@pytest.mark.parametrize("language", languages())
def test_every_technique_has_hints_that_name_places_alone(language):
    says = read_words(language).hints.says
    for technique in Technique:
        for sentence in says[technique.value.replace(" ", "-")]:
            assert set(HOLES.findall(sentence)) <= places_of(technique) | SYMBOLS, sentence
    for sentence in says["arrangements-in-a-house"]:
        assert set(HOLES.findall(sentence)) <= {"mark", "in"} | SYMBOLS


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_no_digit_is_named(rule, language):
    puzzle, path = walked(rule.example)
    for turn in range(3):
        for hint in hints(puzzle, path, read_words(language), 5, turn):
            bare = LINES.sub("", CELLS.sub("", hint))
            assert not re.search(r"\d", bare), hint
            assert hint[0].isupper()
            assert hint.endswith((".", "?"))


def test_no_letter_is_named():
    puzzle = read_puzzle(SALTMARSH / "dry-shod" / "03-spelt.yaml")
    told = hints(puzzle, walk(puzzle), read_words("en"), 5)
    assert told
    for hint in told:
        assert not re.search(r"\b[SLUICE]\b", hint)
        assert "symbol" in hint


def test_hints_point_at_the_first_hard_places():
    puzzle = read_puzzle(SALTMARSH / "the-flood" / "07-jetty.yaml")
    assert hints(puzzle, walk(puzzle), read_words("en"), 2) == (
        "In column 5, one digit has few places, and a cell elsewhere sees them all.",
        "Two cells in column 2 wait for the same two digits.",
    )
    first, second = hints(puzzle, walk(puzzle), read_words("de"), 2)
    assert "in Spalte 5" in first
    assert "in Spalte 2" in second


def test_no_more_are_given_than_asked_for_and_turns_vary_the_words():
    puzzle = read_puzzle(SALTMARSH / "the-flood" / "07-jetty.yaml")
    path, words = walk(puzzle), read_words("en")
    assert hints(puzzle, path, words, 0) == ()
    assert len(hints(puzzle, path, words, 1)) == 1
    assert hints(puzzle, path, words, 1, turn=0) != hints(puzzle, path, words, 1, turn=1)
