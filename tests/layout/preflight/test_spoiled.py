"""A finished book is clean, and whatever is spoiled in its file is named."""

import pytest
from pikepdf import Array, Dictionary, Name

from layout.preflight.checks.finding import CHECKS, WITH_JOB
from layout.preflight.preflight import Terms, preflight
from layout.preflight.reading.opening import read_bytes
from tests.support.spoiling import (
    add,
    finished,
    page_with,
    place,
    read,
    say,
    spoiled,
    write,
)

ANSWER = "answer on page 11"
FIRST = "Two reeds"


def drop_trim(pdf):
    del pdf.pages[8].TrimBox


def drop_bleed(pdf):
    del pdf.pages[8].BleedBox


def shrink_bleed(pdf):
    pdf.pages[8].BleedBox = Array([20, 20, 400, 600])


def cut_one_page_smaller(pdf):
    left, bottom, right, top = pdf.pages[8].TrimBox
    pdf.pages[8].TrimBox = Array([left, bottom, right, top - 6])


def turn_a_page(pdf):
    pdf.pages[8].Rotate = 90


def unembed(pdf):
    fonts = pdf.pages[0].Resources.Font
    del fonts[next(iter(fonts.keys()))].FontDescriptor.FontFile2


def forget_texts(pdf):
    fonts = pdf.pages[0].Resources.Font
    del fonts[next(iter(fonts.keys()))].ToUnicode


def widen(pdf):
    for font in pdf.pages[0].Resources.Font.values():
        font.Widths = Array([float(width) + 20 for width in font.Widths])


def show_no_glyph(pdf):
    page = page_with(pdf, FIRST)
    add(pdf, page, f"BT {next(iter(page.Resources.Font.keys()))} 10 Tf 100 100 Td <FE> Tj ET")


def colour_in(pdf):
    add(pdf, pdf.pages[8], "1 0 0 RG 1 w 100 100 m 200 100 l S")


def thin_a_line(pdf):
    page = page_with(pdf, FIRST)
    instructions = read(page)
    at = next(index for index, (_, name) in enumerate(instructions) if name == "w")
    instructions[at] = [0.1], "w"
    write(pdf, page, instructions)


def shrink_words(pdf):
    page = page_with(pdf, FIRST)
    instructions = read(page)
    write(pdf, page, [([0.5, 0, 0, 0.5, 90, 90], "cm"), *instructions])


def shrink_a_sum(pdf):
    shrink(pdf, "12", 0.3)


def shrink_a_digit(pdf):
    shrink(pdf, "4", 0.15)


def shrink_words_beside_a_grid(pdf):
    shrink(pdf, "The digits in each cage differ and add up to its number.", 0.55)


def shrink(pdf, text, share):
    """Words of a page with cages, at a share of their size."""
    page = page_with(pdf, "Lock gates")
    instructions = read(page)
    at, _ = place(page, instructions, text)
    begin = max(index for index in range(at) if instructions[index][1] == "Tm")
    matrix = [float(number) for number in instructions[begin][0]]
    instructions[begin] = [share * number for number in matrix[:4]] + matrix[4:], "Tm"
    write(pdf, page, instructions)


def paint_over_a_digit(pdf):
    add(pdf, page_with(pdf, FIRST), "1 g 227 409 45 45 re f")


def ink_at_the_edge(pdf):
    left, bottom, *_ = map(float, page_with(pdf, FIRST).TrimBox)
    add(pdf, page_with(pdf, FIRST), f"0 g {left + 4} {bottom + 40} 5 100 re f")


def bleed_too_short(pdf):
    page = page_with(pdf, FIRST)
    left, bottom, *_ = map(float, page.TrimBox)
    add(pdf, page, f"0 g {left - 3} {bottom + 40} 60 100 re f")


def coarse_image(pdf):
    image = pdf.make_stream(b"\x80" * 100)
    image.Type, image.Subtype, image.ColorSpace = Name.XObject, Name.Image, Name.DeviceGray
    image.Width, image.Height, image.BitsPerComponent = 10, 10, 8
    page = page_with(pdf, FIRST)
    page.Resources = Dictionary(Font=page.Resources.Font, XObject=Dictionary(Im=image))
    add(pdf, page, "q 72 0 0 72 100 100 cm /Im Do Q")


def blank_page_more(pdf):
    pdf.add_blank_page(page_size=(100, 100))
    blank = pdf.pages[-1]
    for box in ("MediaBox", "BleedBox", "TrimBox"):
        blank[f"/{box}"] = pdf.pages[0][f"/{box}"]
    pdf.pages.insert(12, blank)
    del pdf.pages[-1]


def count_from_elsewhere(pdf):
    ranges = pdf.Root.PageLabels.Nums
    ranges[-1].St = 3


def print_another_folio(pdf):
    say(pdf, page_with(pdf, FIRST), "6", "8")


def lead_a_link_astray(pdf):
    note = page_with(pdf, ANSWER).Annots[0]
    note.Dest = Array([pdf.pages[10].obj, *list(note.Dest)[1:]])


def lead_a_link_nowhere(pdf):
    note = page_with(pdf, ANSWER).Annots[0]
    note.Dest = Array([pdf.pages[10].Contents, *list(note.Dest)[1:]])


def lead_the_outline_astray(pdf):
    with pdf.open_outline() as outline:
        outline.root[1].destination = Array([pdf.pages[2].obj, Name.Fit])


def renumber_a_reference(pdf):
    say(pdf, page_with(pdf, ANSWER), ANSWER, "answer on page 12")


def name_a_page_that_is_not_there(pdf):
    for page in pdf.pages:
        if "/Annots" in page:
            del page.Annots
    say(pdf, page_with(pdf, ANSWER), ANSWER, "answer on page 77")


def renumber_the_contents(pdf):
    say(pdf, page_with(pdf, "Contents"), "5", "8")


def rename_a_part(pdf):
    say(pdf, page_with(pdf, "High Water", 1), "High Water", "Low Watch")


def drop_the_title(pdf):
    del pdf.docinfo["/Title"]


def tell_two_titles(pdf):
    pdf.docinfo["/Title"] = "The Large Almanac"


def drop_the_language(pdf):
    del pdf.Root.Lang


def break_a_page(pdf):
    page = page_with(pdf, FIRST)
    page.Contents = pdf.make_stream(page.Contents.read_bytes() + b"\n10 20 l S")


def claim_a_standard(pdf):
    pdf.docinfo["/GTS_PDFXVersion"] = "PDF/X-1a:2003"


SPOILED = {
    drop_trim: ("boxes", "the trim box is missing"),
    drop_bleed: ("boxes", "the bleed box is missing"),
    shrink_bleed: ("boxes", "the trim box reaches out of the bleed box"),
    cut_one_page_smaller: ("boxes", "the trim is 432.0 x 642.0 pt"),
    turn_a_page: ("boxes", "turned or scaled"),
    unembed: ("fonts", "is not embedded"),
    forget_texts: ("fonts", "does not say what code"),
    widen: ("fonts", "another width"),
    show_no_glyph: ("fonts", "has no glyph for code 254"),
    colour_in: ("colours", "found the colour space DeviceRGB"),
    thin_a_line: ("lines", "the thinnest 0.1"),
    shrink_words: ("type", "letters under 6 pt"),
    shrink_a_sum: ("type", "2 letters under 6 pt"),
    shrink_a_digit: ("type", "the smallest '4'"),
    shrink_words_beside_a_grid: ("type", "in 5.5 pt"),
    paint_over_a_digit: ("hidden", "a letter is painted over: '3'"),
    ink_at_the_edge: ("margin", "ink is 4.0 pt from the left edge"),
    bleed_too_short: ("margin", "ink goes 3.0 pt over the left edge"),
    coarse_image: ("images", "an image of 10 pixels an inch"),
    blank_page_more: ("parity", "a part opens on a left-hand page"),
    count_from_elsewhere: ("labels", "the page number printed is 1; the file calls it '3'"),
    print_another_folio: ("labels", "the page number printed is 8; the file calls it '6'"),
    lead_a_link_astray: ("links", "a link over “answer on page 11” leads to page 5"),
    lead_a_link_nowhere: ("links", "a link leads nowhere: “answer on page 11”"),
    lead_the_outline_astray: ("links", "the outline leads here for"),
    renumber_a_reference: ("links", "a link over “answer on page 12” leads to page 11"),
    name_a_page_that_is_not_there: ("references", "names page 77, which is not in the file"),
    renumber_the_contents: ("contents", "name page 8 for “Low Water”"),
    rename_a_part: ("contents", "do not name the heading “Low Watch”"),
    drop_the_title: ("metadata", "the title is missing"),
    tell_two_titles: ("metadata", "Title is 'The Large Almanac' in the information"),
    drop_the_language: ("metadata", "the language is missing"),
    break_a_page: ("content", "can't be read"),
    claim_a_standard: ("standard", "PDF/X-1a:2003"),
}
"""What is done to the file, the check that names it, and how."""


def findings(data):
    return list(preflight(read_bytes(data, "book.pdf"), Terms()))


def test_a_finished_book_is_clean():
    assert findings(finished()) == []


@pytest.mark.parametrize("spoil", SPOILED, ids=lambda spoil: spoil.__name__)
def test_what_is_spoiled_is_named(spoil):
    check, words = SPOILED[spoil]
    found = findings(spoiled(spoil))
    assert any(each.check == check and words in each.words for each in found), found


def test_each_check_has_something_that_it_finds():
    assert {check for check, _ in SPOILED.values()} == set(CHECKS) - set(WITH_JOB)
