"""Grades on finished pages: the word, and as many filled marks as the band is high."""

import re
from dataclasses import replace

import pytest
from pypdfium2 import raw

from layout.language.words import read_words
from layout.pages.common.gauge import gauge
from layout.style.style import read_style
from tests.support.books import POINT, book_of, manifest, printed
from tests.support.drawn import STYLES
from verify.walk.report.grade import GRADED, Band, Grade

BANDS = [*GRADED, Band.UNGRADED]


def graded_book(per_page, bands):
    """A puzzle of each band, in its order."""
    book = book_of([("Low Water", "", [manifest(n) for n in range(len(bands))], per_page)])
    (section,) = book.sections
    puzzles = tuple(
        replace(each, grade=Grade(band, None, None))
        for each, band in zip(section.puzzles, bands, strict=True)
    )
    return replace(book, sections=(replace(section, puzzles=puzzles),))


def marks(pdf, page):
    """The small upright boxes of a page, from top to bottom: "#" for filled, "o" for open."""
    found = []
    for thing in pdf.pages[page].get_objects(max_depth=4):
        if thing.type != raw.FPDF_PAGEOBJ_PATH:
            continue
        left, bottom, right, top = (value * POINT for value in thing.get_bounds())
        if 0.4 < right - left < 2 and 1.5 < (top - bottom) / (right - left) < 2.6:
            found.append((-round((top + bottom) / 2), left, "o" if is_stroked(thing) else "#"))
    return "".join(mark for _, _, mark in sorted(found))


def is_stroked(thing):
    from ctypes import byref, c_int

    mode, stroked = c_int(), c_int()
    raw.FPDFPath_GetDrawMode(thing, byref(mode), byref(stroked))
    return bool(stroked.value)


def puzzle_pages(pdf):
    return [at for at in range(len(pdf)) if re.search("answers? on page", pdf.text(at))]


@pytest.mark.parametrize("per_page", [1, 2])
def test_each_band_has_its_word_and_its_marks(per_page):
    pdf, _ = printed(graded_book(per_page, BANDS))
    pages = puzzle_pages(pdf)
    assert "".join(marks(pdf, at) for at in pages) == "#oooo##ooo###oo####o#####"
    said = " ".join(pdf.text(at) for at in pages)
    for band in GRADED:
        assert said.count(band.value) == 1
    assert "ungraded" not in said


@pytest.mark.parametrize("per_page", [4, 6])
def test_puzzles_that_share_a_page_have_theirs(per_page):
    pdf, _ = printed(graded_book(per_page, [Band.STIFF] * 6))
    pages = puzzle_pages(pdf)
    assert "".join(marks(pdf, at) for at in pages).count("#") == 18
    assert sum(pdf.text(at).count("stiff") for at in pages) in (0, 6)


@pytest.mark.parametrize("style", STYLES)
def test_grades_keep_clear_of_names_however_long(style):
    long = "Ottoline Marchbanks-Featherstonehaugh of Hollow Hythe"
    book = book_of([("Low Water", "", [manifest(n, constructor=long) for n in range(2)], 1)])
    pdf, _ = printed(book, style)
    for at in puzzle_pages(pdf):
        assert pdf.overlaps(at) == []
        assert "calm" in pdf.text(at)


def test_contents_and_openers_go_from_the_easiest_to_the_hardest():
    pdf, _ = printed(graded_book(1, [Band.STEEP, Band.UNGRADED, Band.CALM, Band.STIFF]))
    said = [pdf.text(at) for at in range(len(pdf))]
    assert sum("puzzles 1 to 4, calm to steep" in text for text in said) == 2
    pdf, _ = printed(graded_book(1, [Band.STEEP, Band.STEEP]))
    assert sum("puzzles 1 to 2, steep" in pdf.text(at) for at in range(len(pdf))) == 2
    pdf, _ = printed(graded_book(1, [Band.UNGRADED]))
    assert all("ungraded" not in pdf.text(at) for at in range(len(pdf)))


def test_a_reader_who_does_not_see_the_marks_is_told_them():
    face = read_style("paperback").page.faces.note
    for language, said in (("en", "stiff: 3 of 5"), ("de", "zäh: 3 von 5")):
        shown = gauge(Grade(Band.STIFF, 4.2, None), read_words(language).grades, face)
        assert shown.says.startswith(said)
