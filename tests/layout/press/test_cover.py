"""A cover as one sheet, read back from its finished file."""

from dataclasses import replace

import pypdfium2
import pytest
import zxingcpp

from layout.jobs.common.values import TRIMS
from layout.language.words import words_for
from layout.pages.common.design import Design
from layout.pages.common.format import Trim, page_format
from layout.pages.common.misfit import Misfits
from layout.press.cover import Cover, cover_document
from layout.press.printers_marks import SLUG
from layout.press.spine import CLEAR
from layout.press.water_lines import FAR_LINE, land_of
from layout.press.wrap import Wrap, spine_width
from layout.style.style import read_style, shipped_style_names
from layout.writers.pdf import pdf_of_document
from tests.support.checkout import BOOKS
from verify.manifest.read import read_puzzle

POINT = 72 / 25.4
SIX_BY_NINE = Trim(152.4, 228.6, 3.0)
HERON = read_puzzle(BOOKS / "saltmarsh/puzzles/low-water/06-heron.yaml")

COVER = Cover(
    "The Small Almanac",
    "Puzzles for low tide",
    "Edited by Ida Marsh",
    "Tidewrack Press",
    "The creeks have drained, and the herons stand about *like posts*.",
    "979-4-1706-0345-1",
    "Each puzzle in this book has been proved to have exactly one answer.",
    HERON,
)


def made(cover=COVER, trim=SIX_BY_NINE, spine=10.0, style="paperback", language="en"):
    """The cover's one page, by pdfium."""
    look = read_style(style)
    words = words_for(language)
    design = Design(page_format(trim, look.page, 200), look.page, look.board, words, language)
    data = pdf_of_document(cover_document(cover, Wrap(trim, spine), design))
    return pypdfium2.PdfDocument(data)[0]


def part(page, left, top, right, bottom, dpi=300):
    """A cut of the page as pixels, in mm from the upper left corner of the medium."""
    wide, high = page.get_size()
    crop = (left * POINT, high - bottom * POINT, wide - right * POINT, top * POINT)
    return page.render(scale=dpi / 72, crop=crop).to_pil().convert("L")


def code_of(page):
    """What a reader finds at the foot of the back."""
    return zxingcpp.read_barcodes(part(page, 90, 175, 145, 225, dpi=200))


def test_the_spine_is_as_thick_as_the_leaves():
    # 200 pages of paper with 400 pages to the inch are half an inch; 128 of 0.0039 in 0.2496 in
    assert spine_width(200, 2 / 400 * 25.4) == pytest.approx(0.5 * 25.4)
    assert spine_width(128, 0.0039 * 25.4) == pytest.approx(0.2496 * 25.4)


def test_back_spine_and_front_are_one_trim_in_bleed_and_slug():
    page = made(spine=7.3)
    slug, rim = SLUG * POINT, (SLUG + 3.0) * POINT
    right, top = rim + (2 * 152.4 + 7.3) * POINT, rim + 228.6 * POINT
    assert page.get_trimbox() == pytest.approx((rim, rim, right, top), abs=0.01)
    assert page.get_bleedbox() == pytest.approx(
        (slug, slug, right + 3 * POINT, top + 3 * POINT), abs=0.01
    )
    assert page.get_mediabox() == pytest.approx((0, 0, right + rim, top + rim), abs=0.01)


def test_a_cover_bleeds_also_where_the_pages_do_not():
    assert made(trim=Trim(152.4, 228.6)).get_bleedbox() == pytest.approx(
        made().get_bleedbox(), abs=0.01
    )


def test_words_are_found_and_the_number_is_read_by_a_reader():
    page = made()
    text = " ".join(page.get_textpage().get_text_range().split())
    for words in (COVER.title, COVER.subtitle, COVER.author, COVER.publisher, COVER.proved):
        assert words in text
    assert "herons stand about like posts" in text
    assert "ISBN 979-4-1706-0345-1" in text
    (found,) = code_of(page)
    assert found.text == "9794170603451"


def test_without_an_isbn_there_is_no_code():
    assert not code_of(made(replace(COVER, isbn="")))


def spine_ink(page, spine):
    """Where the letters of the spine lie across it, in mm from its left fold; None without a label.

    Looked for in the paper of the label that begins at the height of the front's.
    """
    rim = SLUG + 3.0
    left, top = rim + 152.4, rim + 0.105 * 228.6 + 1.5
    cut = part(page, left + 1.0, top, left + spine - 1.0, top + 20)
    dark = [
        x for x in range(cut.width) if any(cut.getpixel((x, y)) < 128 for y in range(cut.height))
    ]
    return [1.0 + x * 25.4 / 300 for x in (dark[0], dark[-1])] if dark else None


@pytest.mark.parametrize("spine", [5.0, 8.0, 20.0])
def test_letters_on_the_spine_keep_clear_of_its_folds(spine):
    left, right = spine_ink(made(spine=spine), spine)
    assert CLEAR - 0.1 <= left < right <= spine - CLEAR + 0.2
    assert (left + right) / 2 == pytest.approx(spine / 2, abs=0.3)


def test_a_narrow_spine_stays_without_words():
    narrow, wide = made(spine=4.2), made(spine=5.0)
    label = len(list(wide.get_objects())) - len(list(narrow.get_objects()))
    assert label >= 3  # paper, frame, letters


def test_nothing_but_marks_lies_in_the_slug():
    image = part(made(), SLUG - 0.4, 0, SLUG - 0.2, 228.6 + 2 * SLUG + 6, dpi=150)
    edge = [image.getpixel((0, y)) for y in range(image.height)]
    rim = (SLUG + 3.0) * 150 / 25.4
    marks = {round(rim), round(image.height - rim)}
    assert all(
        any(abs(y - mark) < 4 for mark in marks) for y, grey in enumerate(edge) if grey < 200
    )


def test_lines_are_no_finer_than_presses_hold():
    assert FAR_LINE / 25.4 * 72 >= 0.25


def test_a_puzzle_without_trails_has_its_givens_for_land():
    plain = read_puzzle(BOOKS / "saltmarsh/puzzles/slack-water/01-dead-slack.yaml")
    assert len(land_of(plain)) == sum(map(bool, plain.givens))
    assert made(replace(COVER, picture=plain))


@pytest.mark.parametrize("size", ["A5", "A4"])
def test_covers_fit_every_style_on_ordinary_trims(size):
    for style in shipped_style_names():
        text = made(trim=Trim(*TRIMS[size], 3.0), style=style, spine=12.0).get_textpage()
        assert "979-4-1706-0345-1" in text.get_text_range()


def test_words_that_take_more_than_the_back_has_are_told():
    long = replace(COVER, blurb=COVER.blurb * 60)
    with pytest.raises(Misfits) as raised:
        made(long)
    assert raised.value.found[0].path == ("cover", "words")


def test_a_title_too_long_for_the_label_is_told():
    with pytest.raises(Misfits) as raised:
        made(replace(COVER, title="Marsh " * 60))
    assert raised.value.found[0].path == ("title",)
