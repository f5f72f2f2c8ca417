"""The words of the pages: every sentence there, every hole in it filled."""

import re
from dataclasses import replace

import pytest

from layout.language.rule_words import RuleWords
from layout.language.sentence import Sentence
from layout.language.wording import (
    all_symbols,
    rule_sentences,
    shared_sentences,
    symbol_words,
)
from layout.language.words import fill, languages, read_words
from layout.shipped import shipped_words
from tests.support.sayings import said_keys
from verify.manifest.read import puzzle_from_text
from verify.rule import Saying, Use
from verify.rules import BY_NAME, RULES

SAYING_KEYS = said_keys()

HOLES = re.compile(r"\{([^}]*)\}")


@pytest.fixture(params=languages())
def words(request):
    return read_words(request.param)


def test_there_is_english():
    assert "en" in languages()
    assert {path.stem for path in shipped_words().glob("*.yaml")} == set(languages())


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_has_words_in_every_language(rule, words):
    said = words.rules[rule.name]
    assert said.title
    assert len(said.teach) > 20
    puzzle = puzzle_from_text(rule.example)
    for sentence in rule_sentences(puzzle, words):
        assert sentence[-1] in ".!?"
        assert not HOLES.search(sentence)
    for use in puzzle.uses:
        for saying in use.sayings():
            if saying.key != "houses":
                assert said.sentence(saying)


@pytest.mark.parametrize("key", SAYING_KEYS)
def test_every_saying_has_a_sentence_in_both_numbers(key, words):
    for count in (1, 2):
        (said,) = (rule for rule in words.rules.values() if key in rule.says)
        sentence = said.sentence(Saying(key, count))
        assert set(HOLES.findall(sentence)) <= {"digit", "digits", "chosen", "gap", "cells", "sum"}


def test_no_sentence_is_left_over(words):
    """One that no example asks for wants marks in `WRITTEN` of `tests/support/rules/NAME.py`."""
    said = {key for rule in words.rules.values() for key in rule.says}
    assert said == set(SAYING_KEYS)
    assert set(words.rules) == {rule.name for rule in RULES}


def test_a_missing_sentence_is_an_error(words):
    with pytest.raises(KeyError):
        words.rules["cage"].sentence(Saying("no-such-rule"))
    with pytest.raises(KeyError):
        fill("the {tide} rises", ebb="low")


def puzzle(text, size=4):
    grid = "\n".join("  " + " ".join(["."] * size) for _ in range(size))
    return puzzle_from_text(f"size: {size}\n{text}\ngivens: |\n{grid}\n")


@pytest.mark.parametrize(
    ("text", "size", "expected"),
    [
        ("kind: sudoku", 4, "Each row, column and box holds the digits 1 to 4 once."),
        ("kind: latin", 5, "Each row and column holds the digits 1 to 5 once."),
        (
            "kind: sudoku\nrules: {regions: 'AABB AABB CCDD CCDD'}",
            4,
            "Each row, column and region holds the digits 1 to 4 once.",
        ),
        (
            "kind: sudoku\nsymbols: ABCDEF",
            6,
            "Each row, column and box holds the letters A to F once.",
        ),
        (
            "kind: latin\nsymbols: '2357'",
            4,
            "Each row and column holds the symbols 2, 3, 5 and 7 once.",
        ),
        ("kind: blank\nrules: {even: [r1c1]}", 4, "Each cell holds one of the digits 1 to 4."),
    ],
)
def test_houses_are_told_in_one_sentence(text, size, expected):
    if "regions" in text:
        text = (
            "kind: sudoku\nrules:\n  regions: |\n    A A B B\n    A A B B\n    C C D D\n    C C D D"
        )
    first = rule_sentences(puzzle(text, size), read_words("en"))[0]
    assert first.replace("\u00a0", " ") == expected


@pytest.mark.parametrize(
    ("size", "expected"),
    [
        (9, "the digits 1 to 9"),
        (10, "the digits 1 to 9 and the letter A"),
        (16, "the digits 1 to 9 and the letters A to G"),
    ],
)
def test_symbols_beyond_nine(size, expected):
    symbols = puzzle("kind: latin", size).symbols
    assert all_symbols(symbols, read_words("en")).replace("\u00a0", " ") == expected
    assert symbol_words(symbols, read_words("en")).many == "digits"


def test_one_mark_and_several():
    words = read_words("en")
    one = puzzle("kind: sudoku\nrules: {thermometer: [r1c1 e e]}")
    two = puzzle("kind: sudoku\nrules: {thermometer: [r1c1 e e, r4c1 e e]}")
    assert "the thermometer" in rule_sentences(one, words)[1]
    assert "each thermometer" in rule_sentences(two, words)[1]
    one, two = (puzzle(f"kind: sudoku\nrules: {{odd: {cells}}}") for cells in ("r1c1", "r1c1 e"))
    assert [rule_sentences(each, words)[1].split()[0] for each in (one, two)] == ["The", "Each"]


def test_letters_are_not_called_digits():
    letters = puzzle("kind: sudoku\nsymbols: ABCD\nrules: {thermometer: [r1c1 e e]}")
    assert "the letters grow" in rule_sentences(letters, read_words("en"))[1]


def test_own_words_take_the_place_of_the_rule_text():
    own = puzzle("kind: sudoku\nwords: Fill the marsh.")
    assert rule_sentences(own, read_words("en")) == ("Fill the marsh.",)


def test_puzzles_that_share_a_page_share_what_marks_show():
    words = read_words("en")
    plain = puzzle("kind: sudoku")
    warm = puzzle("kind: sudoku\nrules: {thermometer: [r1c1 e e]}")
    shared, own = shared_sentences([plain, warm, warm], words)
    assert [sentence[:8] for sentence in shared] == ["Each row", "Along ea"]
    assert own == [(), (), ()]


def test_puzzles_of_different_sizes_share_a_general_sentence():
    words = read_words("en")
    shared, own = shared_sentences([puzzle("kind: sudoku"), puzzle("kind: sudoku", 6)], words)
    assert len(shared) == 1
    assert "number of its cells" in shared[0]
    assert own == [(), ()]
    shared, own = shared_sentences(
        [puzzle("kind: sudoku"), puzzle("kind: sudoku\nsymbols: ABCDEF", 6)], words
    )
    assert [each[0].replace("\u00a0", " ") for each in own] == [
        "With the digits 1 to 4.",
        "With the letters A to F.",
    ]


def test_different_houses_and_own_words_are_told_of_each():
    words = read_words("en")
    sudoku, latin = puzzle("kind: sudoku"), puzzle("kind: latin")
    shared, own = shared_sentences([sudoku, latin], words)
    assert shared == ()
    assert [len(each) for each in own] == [1, 1]
    own_words = puzzle("kind: sudoku\nwords: Fill the marsh.")
    assert shared_sentences([sudoku, own_words], words)[1][1] == ("Fill the marsh.",)


def test_a_sentence_for_any_number_serves_both():
    words = read_words("en")
    forked = words.rules["thermometer"].says["thermometer-fork"]
    assert isinstance(forked, Sentence)
    assert forked.one == forked.many


MANY_RULES = """\
kind: latin
rules:
  greater: [r1c1 > r1c2]
  odd: [r4c4]
  cage: [{cells: r3c1 e, sum: 5}]
  thermometer: [r1c3 e]
  diagonals: both"""


@pytest.mark.parametrize(
    ("language", "expected"),
    [
        (
            "en",
            [
                "Each row and column holds the digits 1 to 4 once.",
                "No digit stands twice on either marked diagonal.",
                "Along the thermometer the digits grow from the bulb.",
                "The digits in the cage differ and add up to its number.",
                "The grey disc holds an odd digit.",
                "The sign opens towards the larger of its two digits.",
            ],
        ),
        (
            "de",
            [
                "In jeder Zeile und jeder Spalte stehen die Ziffern 1 bis 4 je einmal.",
                "Auf jeder der beiden markierten Diagonalen sind alle Ziffern verschieden.",
                "Auf dem Thermometer steigen die Ziffern von der Kugel an.",
                "Die Ziffern im Käfig sind verschieden und ergeben zusammen seine Zahl.",
                "Im grauen Kreis steht eine ungerade Ziffer.",
                "Das Ungleichheitszeichen steht zwischen zwei Ziffern und öffnet sich zum"
                " größeren Wert.",
            ],
        ),
    ],
)
def test_rules_are_told_in_the_order_of_the_catalogue(language, expected):
    words = read_words(language)
    said = rule_sentences(puzzle(MANY_RULES), words)
    assert [sentence.replace("\u00a0", " ") for sentence in said] == expected
    plain = puzzle("kind: latin\nrules: {odd: [r1c1]}")
    shared, own = shared_sentences([plain, puzzle(MANY_RULES)], words)
    assert [sentence.replace("\u00a0", " ") for sentence in shared[:4]] == expected[:4]
    assert len(shared) == len(expected)
    assert own == [(), ()]


def saying_puzzle(*sayings, symbols="1234", drawn=True):
    """A puzzle whose thermometers say these things."""
    rule = replace(BY_NAME["thermometer"], says=lambda _: sayings)
    plain = puzzle(f"kind: latin\nsymbols: '{symbols}'\nrules: {{thermometer: [r1c1 e]}}")
    constraints = plain.uses[-1].constraints if drawn else ()
    return replace(plain, uses=(*plain.uses[:-1], Use(rule, constraints)))


def with_sentence(language, sentence):
    words = read_words(language)
    said = RuleWords("Title", "Teach.", {"made-up": sentence})
    return replace(words, rules={**words.rules, "thermometer": said})


GAP = Saying("made-up", 2, (("gap", "5"),))
APART = {
    "en": Sentence("On it the {digits} differ by {gap}.", "On them the {digits} differ by {gap}."),
    "de": Sentence("Darauf trennt {digits} {gap}.", "Auf ihnen trennt {digits} {gap}."),
}


@pytest.mark.parametrize(
    ("language", "expected"),
    [("en", "On them the digits differ by 5."), ("de", "Auf ihnen trennt Ziffern 5.")],
)
def test_values_of_a_saying_are_filled_in(language, expected):
    words = with_sentence(language, APART[language])
    assert rule_sentences(saying_puzzle(GAP), words)[1] == expected
    assert shared_sentences([saying_puzzle(GAP)] * 2, words)[0][1] == expected


def test_marks_that_look_alike_with_different_values_are_told_of_each():
    words = with_sentence("en", APART["en"])
    four = replace(GAP, count=1, values=(("gap", "4"),))
    shared, own = shared_sentences([saying_puzzle(GAP), saying_puzzle(four)], words)
    assert len(shared) == 1
    assert own == [("On them the digits differ by 5.",), ("On it the digits differ by 4.",)]


@pytest.mark.parametrize(
    ("language", "expected"),
    [("en", "The letters A, B and D keep off."), ("de", "Die Buchstaben A, B und D meiden sich.")],
)
def test_digits_that_a_saying_names_are_printed_as_symbols(language, expected):
    german = "Die {digits} {chosen} meiden sich."
    said = "The {digits} {chosen} keep off." if language == "en" else german
    words = with_sentence(language, Sentence(said, said))
    named = Saying("made-up", 3, digits=(1, 2, 4))
    assert rule_sentences(saying_puzzle(named, symbols="ABCD"), words)[1] == expected
    letters, digits = saying_puzzle(named, symbols="ABCD"), saying_puzzle(named)
    assert shared_sentences([letters, digits], words)[1][0][-1] == expected


def test_what_holds_where_no_mark_stands_is_told_of_each():
    words = with_sentence("en", Sentence("Elsewhere it falls.", "Elsewhere it falls."))
    everywhere = saying_puzzle(Saying("made-up", everywhere=True))
    shared, own = shared_sentences([everywhere, puzzle("kind: latin")], words)
    assert len(shared) == 1
    assert own == [("Elsewhere it falls.",), ()]
    assert shared_sentences([everywhere, everywhere], words)[0][1] == "Elsewhere it falls."


def test_a_puzzle_keeps_its_sentence_where_another_has_no_mark_for_it():
    words = with_sentence("en", Sentence("It falls.", "They fall."))
    said = Saying("made-up")
    shared, own = shared_sentences(
        [saying_puzzle(said), saying_puzzle(said, drawn=False), puzzle("kind: latin")], words
    )
    assert len(shared) == 1
    assert own == [("It falls.",), ("It falls.",), ()]
