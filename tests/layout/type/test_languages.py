"""What every language must have: English is the measure of what is said, and of its holes."""

import re
from dataclasses import fields
from functools import cache

import pytest

from layout.language.words import languages, read_words
from layout.shipped import shipped_words
from layout.style.style import read_style
from layout.type.face import Face
from layout.type.fonts import font
from layout.type.hyphens import hyphen_points
from layout.type.typography import polish
from tests.support.drawn import STYLES
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Text
from verify.reading.problems import Problems

ENGLISH = "en"
OTHERS = [language for language in languages() if language != ENGLISH]

NUMBERS = ("one", "many")
HOLES = re.compile(r"\{([^}]*)\}")
ENDS = re.compile(r"[.!?]$")
PARTS_OF_SENTENCES = {"using", "row", "column", "box", "region", "rows", "columns", "boxes"}
SENTENCES_OF_WALKS = {
    ("placing", "rest"),
    *(("ends", each) for each in ("stuck", "time-over", "contradiction")),
    *(("verdicts", each) for each in ("many", "parting", "none", "none-unseen", "undecided")),
}
PHRASES_OF_REPORTS = {"technique", "symmetries", "no-symmetry"}
PHRASES_OF_WALKS = {"houses", "sides", "dead-ends", "way"}


def leaves(node, path=()):
    if isinstance(node, Text):
        return {path: node.text}
    entries = node.entries if isinstance(node, Fields) else enumerate(node.items)
    found = {}
    for key, value in entries:
        found |= leaves(value, (*path, getattr(key, "text", key)))
    return found


@cache
def texts(language):
    """Everything that any language says, by the path of its keys."""
    name = f"{language}.yaml"
    problems = Problems()
    told = leaves(read_tree(shipped_words() / name, name, problems))
    assert not problems.found
    its_own = {("sorting",), ("dates", "regions")}
    return {path: text for path, text in told.items() if its_own.isdisjoint((path[:1], path[:2]))}


def without_number(path):
    return path[:-1] if path[0] in ("rules", "walk", "worksheet") and path[-1] in NUMBERS else path


def english(path):
    """What English says there, in that number where it tells numbers apart."""
    said = texts(ENGLISH)
    return said[path] if path in said else said[without_number(path)]


def holes(text):
    """What is filled in; a symbol can be named in either number."""
    return {"digits" if hole == "digit" else hole for hole in HOLES.findall(text)}


def is_sentence(path):
    if path[0] == "houses":
        return path[-1] not in PARTS_OF_SENTENCES
    if path[:2] == ("walk", "report"):
        return path[2] not in PHRASES_OF_REPORTS
    if path[0] == "walk":
        return path[1:3] in SENTENCES_OF_WALKS or (path[1] == "techniques" and path[-1] != "name")
    if path[0] == "worksheet" and ("young" in path or path[1] in ("task", "cross-out")):
        return True
    if path[:2] == ("hints", "so-far"):
        return True
    return "says" in path or path[-1] in ("teach", "proved", "hint", "intro")


def test_there_are_languages_to_hold_against_english():
    assert OTHERS


@pytest.mark.parametrize("language", OTHERS)
def test_it_says_what_english_says(language):
    said = {without_number(path) for path in texts(language)}
    assert said == {without_number(path) for path in texts(ENGLISH)}
    told_apart = {path for path in texts(ENGLISH) if path != without_number(path)}
    assert told_apart <= set(texts(language))


@pytest.mark.parametrize("language", OTHERS)
def test_its_sentences_have_the_holes_of_english(language):
    for path, text in texts(language).items():
        assert holes(text) == holes(english(path)), (path, text)


@pytest.mark.parametrize("language", OTHERS)
def test_nothing_was_left_in_english(language):
    shared = {("pages", "isbn"), ("quotes",), ("lists",), ("dates",), ("walk", "consequence")}
    for path, text in texts(language).items():
        # A title is a single word, which two languages may well share, as they do mere signs.
        has_words = any(map(str.isalpha, re.sub(r"\{[^}]*\}", "", text)))
        if has_words and path not in shared and path[:1] not in shared and path[-1] != "title":
            assert text != english(path), path


@pytest.mark.parametrize("language", languages())
def test_every_sentence_begins_and_ends_as_one(language):
    for path, text in texts(language).items():
        if is_sentence(path):
            for paragraph in text.strip().split("\n\n"):
                assert ENDS.search(paragraph.strip()), (path, paragraph)
                assert not paragraph[0].islower(), (path, paragraph)


@pytest.mark.parametrize("language", languages())
def test_phrases_of_walks_can_stand_within_a_sentence(language):
    for path, text in texts(language).items():
        if path[-1] == "called" or path[:2] in {("walk", each) for each in PHRASES_OF_WALKS}:
            assert text[0] == "{" or text[0].islower(), (path, text)
            assert not ENDS.search(text), (path, text)


@pytest.mark.parametrize("language", languages())
def test_a_mark_is_called_by_where_it_is(language):
    for path, text in texts(language).items():
        if path[-1] == "called":
            assert len(holes(text)) <= 1, (path, text)
            assert holes(text) <= {"cell", "cells", "place"}, (path, text)


@pytest.mark.parametrize("language", languages())
def test_numbers_differ_where_they_are_told_apart(language):
    told = texts(language)
    for path, text in told.items():
        if path != without_number(path) and path[-1] == "one":
            assert text != told[*path[:-1], "many"], path


@pytest.mark.parametrize("language", languages())
def test_what_is_typed_is_printed_with_the_quotes_of_the_language(language):
    words = read_words(language)
    (left, right), (inner_left, inner_right) = words.quote_marks.double, words.quote_marks.single
    printed = polish("\"a 'b' c's 'd'\"", words.quote_marks)
    assert printed == f"{left}a {inner_left}b{inner_right} c’s {inner_left}d{inner_right}{right}"


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("language", languages())
def test_every_style_has_its_letters(language, style):
    sheet = read_style(style)
    used = [
        getattr(faces, field.name)
        for faces in (sheet.page.faces, sheet.column.faces)
        for field in fields(faces)
    ]
    names = {
        name
        for face in used
        for name in (
            [face.font] if isinstance(face, Face) else [face.roman, face.italic, face.bold]
        )
    }
    quotes = read_words(language).quote_marks
    letters = set("".join(polish(text, quotes) for text in texts(language).values()))
    for name in names:
        assert {char for char in letters if not font(name).has(char)} == set(), name


@pytest.mark.parametrize("language", languages())
def test_words_can_be_parted(language):
    said = " ".join(text for path, text in texts(language).items() if path[-1] == "teach")
    assert any(hyphen_points(word, language) for word in re.findall(r"\w+", said))
