"""A book in each language: set without misfits, and told in that language throughout."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from layout.language.words import languages, read_words
from layout.pages.book.constructors import sort_key
from layout.pages.common.format import Trim
from tests.support.books import book_of, manifest, printed, rule_examples
from tests.support.drawn import STYLES

NAMES = ["Ida Mühle", "Jon Mueller", "Nell Muhme", "Elsa Ähre", "Amos Adler", "Ida Zander"]


def small_book():
    return book_of(
        [
            ("Low Water", "", rule_examples(), 1),
            ("High Water", "", [manifest(n, f"Gauge {n}", NAMES[n]) for n in range(6)], 4),
        ]
    )


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("language", languages())
def test_every_style_has_room_for_its_sentences(language, style):
    large = Trim(215.9, 279.4, 3.0)
    pdf, _ = printed(small_book(), style, large, language)
    assert len(pdf)


def test_a_german_book_is_german_throughout():
    pdf, laid = printed(small_book(), language="de-AT")
    assert str(PdfReader(BytesIO(pdf.data)).root_object["/Lang"]) == "de-AT"
    text = "\n".join(pdf.text(index) for index in range(len(pdf)))
    words = read_words("de").pages
    for title in (words.contents, words.how_to_solve, words.answers, words.constructors):
        assert title in text
    assert "Lösung auf Seite" in text
    assert "Ziffern 1 bis 4 je einmal" in text
    for english in ("Each", "the digits", "answer", "puzzle on", "Contents", " and "):
        assert english not in text
    assert laid.document.outline[0].title == "Inhalt"


def test_names_are_sorted_by_the_rules_of_the_language():
    # DIN 5007-2, for lists of names: ä counts as ae; English has no such rule
    def ordered(language):
        sorting = read_words(language).sorting
        return [name.split()[1] for name in sorted(NAMES, key=lambda name: sort_key(name, sorting))]

    assert ordered("de") == ["Adler", "Ähre", "Mühle", "Mueller", "Muhme", "Zander"]
    assert ordered("en") == ["Adler", "Ähre", "Mueller", "Mühle", "Muhme", "Zander"]
