"""PDF files, read back with pypdf and pypdfium2."""

import os
import re
import subprocess
import sys
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader
from pypdf.generic import ContentStream

from layout.board.board import draw_board
from layout.picture.document import Document, Info, Leaf, OutlineEntry
from layout.picture.items import Anchor, Fill, Group, Link, Stroke, Text
from layout.picture.shapes import disc, polyline, rectangle
from layout.type.fonts import MissingGlyphError, font
from layout.type.roman import roman
from layout.writers.pdf import label_ranges, pdf_of_document, pdf_of_picture
from tests.support.drawn import POINT, board_style, filled, full_puzzle

GREY_ONLY = {b"g", b"G"}
COLOURS = {b"rg", b"RG", b"k", b"K", b"cs", b"CS", b"sc", b"SC", b"scn", b"SCN", b"sh", b"ri"}


def text(words, x=10.0, y=20.0, name="Spectral Regular", size=4.0, grey=0.0):
    return Text(x, y, words, name, size, font(name).advances(words), grey)


def leaf(*items, label="1", bleed=0.0):
    return Leaf(100, 150, items, label, bleed)


def pdf_of(*leaves, info=None, outline=()):
    return pdf_of_document(Document(leaves, info or Info("Tide Tables"), outline))


def reader_of(data, tmp_path):
    path = tmp_path / "file.pdf"
    path.write_bytes(data)
    return PdfReader(path)


def operators(reader):
    for page in reader.pages:
        yield from (name for _, name in ContentStream(page.get_contents(), reader).operations)


@pytest.fixture
def board_pdf():
    puzzle = full_puzzle()
    return pdf_of_picture(draw_board(puzzle, board_style(), 100, answer=filled(puzzle)))


def test_a_picture_is_a_page_of_its_own_size(board_pdf, tmp_path):
    reader = reader_of(board_pdf, tmp_path)
    (page,) = reader.pages
    assert [float(v) * POINT for v in page.mediabox] == pytest.approx([0, 0, 100, 100], abs=0.001)
    assert reader.metadata.title == "Every Mark"
    assert "Cage 15" in reader.metadata.subject


def test_only_grey_is_painted(board_pdf, tmp_path):
    used = set(operators(reader_of(board_pdf, tmp_path)))
    assert used & GREY_ONLY == GREY_ONLY
    assert not used & COLOURS
    assert b"Do" not in used
    assert b"gs" not in used


def fonts_of(page):
    """Each font with its descriptor."""
    return [(each, each["/FontDescriptor"]) for each in page["/Resources"]["/Font"].values()]


def test_every_font_is_an_embedded_subset_and_is_used(board_pdf, tmp_path):
    fonts = fonts_of(reader_of(board_pdf, tmp_path).pages[0])
    assert len(fonts) == 2
    for shown, descriptor in fonts:
        # ISO 32000-1, 9.6.4: a tag of six capitals and a plus sign.
        assert re.fullmatch(r"/[A-Z]{6}\+FiraSans-\w+", shown["/BaseFont"])
        assert shown["/BaseFont"] == descriptor["/FontName"]
        assert len(descriptor["/FontFile2"].get_data()) < 30_000
        assert "/ToUnicode" in shown


def test_what_is_told_of_a_font_is_what_its_file_says(tmp_path):
    """ISO 14289-1, 7.21.5: a width that is told is the file's own to 1/1000 of an em."""
    words = "Tidewrack café"
    names = ("Spectral Italic", "Fira Sans Medium")
    data = pdf_of(leaf(*(text(words, y=20 * i + 20, name=name) for i, name in enumerate(names))))
    italic, upright = fonts_of(reader_of(data, tmp_path).pages[0])
    for shown, descriptor in (italic, upright):
        file = TTFont(BytesIO(descriptor["/FontFile2"].get_data()))
        glyphs = file["cmap"].getcmap(1, 0).cmap
        widths = dict(enumerate(shown["/Widths"], shown["/FirstChar"]))
        # The first codes are those of the letters, a space keeps its own.
        codes = [*range(1, len(set(words))), ord(" ")]
        assert [widths[code] for code in codes] == [file["hmtx"][glyphs[code]][0] for code in codes]
        assert descriptor["/FontBBox"][3] >= descriptor["/Ascent"] - 100 > descriptor["/CapHeight"]
        assert not {"GSUB", "GPOS"} & set(file.keys())
        assert {"fpgm", "prep"} <= set(file.keys())
    assert [each["/ItalicAngle"] for _, each in (italic, upright)] == [-10, 0]
    assert [each["/Flags"] for _, each in (italic, upright)] == [4 + 64, 4]


def test_two_subsets_of_a_font_have_two_names(tmp_path):
    def name(words):
        ((shown, _),) = fonts_of(reader_of(pdf_of(leaf(text(words))), tmp_path).pages[0])
        return shown["/BaseFont"]

    assert name("Ebb") == name("EbEb") != name("Flow")


def test_no_font_is_named_that_is_not_embedded(tmp_path):
    reader = reader_of(pdf_of(leaf(Fill((rectangle(20, 30, 10, 5),)))), tmp_path)
    assert fonts_of(reader.pages[0]) == []
    assert b"Tf" not in set(operators(reader))


def test_one_font_by_two_names_is_embedded_once(tmp_path):
    names = ("Spectral Italic", "Spectral Regular Italic")
    data = pdf_of(leaf(*(text("ebb", y=20 * i + 20, name=name) for i, name in enumerate(names))))
    assert len(reader_of(data, tmp_path).pages[0]["/Resources"]["/Font"]) == 1


def test_a_page_has_no_transition_and_no_rotation(tmp_path):
    (page,) = reader_of(pdf_of(leaf(text("Low"))), tmp_path).pages
    assert not {"/Trans", "/Rotate", "/CropBox", "/ArtBox"} & set(page)


@pytest.mark.parametrize("bleed", [0.0, 3.0, 3.175])
def test_the_boxes_nest(bleed, tmp_path):
    """ISO 32000-1, 14.11.2: the trim inside the bleed inside the medium."""
    (page,) = reader_of(pdf_of(leaf(text("Low"), bleed=bleed)), tmp_path).pages
    trim, bleeds, media = page["/TrimBox"], page["/BleedBox"], page["/MediaBox"]
    for inner, outer in ((trim, bleeds), (bleeds, media)):
        assert all(float(inner[i]) >= float(outer[i]) for i in (0, 1))
        assert all(float(inner[i]) <= float(outer[i]) for i in (2, 3))
    width, height = float(trim[2]) - float(trim[0]), float(trim[3]) - float(trim[1])
    assert (width * POINT, height * POINT) == pytest.approx((100, 150), abs=0.001)
    assert (float(trim[0]) - float(bleeds[0])) * POINT == pytest.approx(bleed, abs=0.001)


@pytest.mark.parametrize("bleed", [0.0, 3.0])
def test_items_stand_where_they_were_put(bleed, tmp_path):
    square = Fill((rectangle(20, 30, 10, 5),))
    data = pdf_of(leaf(Group(5, 7, (square,)), bleed=bleed))
    page = pypdfium2.PdfDocument(data)[0]
    (found,) = page.get_objects()
    left, bottom, right, top = (value * POINT for value in found.get_bounds())
    assert (left - bleed, 150 + bleed - top) == pytest.approx((25, 37), abs=0.01)
    assert (right - left, top - bottom) == pytest.approx((10, 5), abs=0.01)


def test_what_follows_a_group_stands_where_it_would_without_the_group():
    inside, after = Fill((rectangle(20, 30, 10, 5),)), Fill((rectangle(60, 80, 10, 5),))
    page = pypdfium2.PdfDocument(pdf_of(leaf(Group(5, 7, (Group(1, 2, ()), inside)), after)))[0]
    found = [[value * POINT for value in each.get_bounds()] for each in page.get_objects()]
    corners = [(left, 150 - top) for left, _, _, top in found]
    assert corners[0] == pytest.approx((25, 37), abs=0.01)
    assert corners[1] == pytest.approx((60, 80), abs=0.01)


WORDS = [
    "AV To Wave, office fly",
    "(brackets) and \\ backslash",
    "Tidewrack—“quoted” ½ café ß",
    "Each row, column and box holds the digits 1 to 9 once.",
]


@pytest.mark.parametrize("words", WORDS)
def test_kerned_text_reads_back_word_for_word(words, tmp_path):
    data = pdf_of(leaf(text(words)))
    assert reader_of(data, tmp_path).pages[0].extract_text().strip() == words
    assert pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range().strip() == words


@given(st.lists(st.floats(-0.2, 0.4), min_size=30, max_size=30))
def test_every_character_stands_where_its_advances_put_it(extra):
    words = "Slack water at the lock gates."
    advances = tuple(
        a + e for a, e in zip(font("Spectral Regular").advances(words), extra, strict=True)
    )
    data = pdf_of(leaf(Text(10, 20, words, "Spectral Regular", 4, advances)))
    page = pypdfium2.PdfDocument(data)[0].get_textpage()
    shown = [i for i in range(page.count_chars()) if page.get_text_range(i, 1).strip()]
    found = iter(page.get_charbox(i)[0] * POINT for i in shown)
    x = 10.0
    for char, advance in zip(words, advances, strict=True):
        if char != " ":
            left = font("Spectral Regular").bounds(char)[0] * 4
            assert next(found) == pytest.approx(x + left, abs=0.01)
        x += advance * 4


def test_small_moves_do_not_add_up_to_a_drift():
    words = "l" * 80
    step = font("Spectral Regular").advances("l")[0] + 0.0007
    data = pdf_of(leaf(Text(5, 20, words, "Spectral Regular", 4, (step,) * 80)))
    page = pypdfium2.PdfDocument(data)[0].get_textpage()
    first, last = (page.get_charbox(index)[0] * POINT for index in (0, 79))
    assert last - first == pytest.approx(79 * step * 4, abs=0.005)


def test_text_in_more_characters_than_one_font_can_code(tmp_path):
    face = font("Fira Sans Regular")
    chars = [
        chr(code) for code in range(0x21, 0x530) if face.has(chr(code)) and chr(code).isalpha()
    ]
    words = "".join(chars[:400])
    data = pdf_of(leaf(text(words, name="Fira Sans Regular", size=0.3)))
    page = reader_of(data, tmp_path).pages[0]
    assert len({shown["/BaseFont"] for shown, _ in fonts_of(page)}) == 2
    assert page.extract_text().replace("\n", "") == words


SHAPE = Fill((rectangle(90, 90, 1, 1),))


@pytest.mark.parametrize("between", [(), (SHAPE,)])
def test_small_words_below_large_ones_are_a_line_of_their_own(between, tmp_path):
    large, small = text("Houses", size=8), text("and their kin", x=30, y=24, size=3)
    page = reader_of(pdf_of(leaf(large, *between, small)), tmp_path).pages[0]
    assert page.extract_text() == "Houses\nand their kin"


def test_words_on_both_sides_of_a_shape_are_one_line(tmp_path):
    words = text("Name"), SHAPE, text("Date", x=60)
    assert reader_of(pdf_of(leaf(*words)), tmp_path).pages[0].extract_text() == "Name Date"


def test_a_space_that_holds_words_together_is_found_as_any_other():
    data = pdf_of(leaf(text("4\u00a0January")))
    assert pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range() == "4 January"


def test_an_empty_text_shows_nothing(tmp_path):
    reader = reader_of(pdf_of(leaf(text(""), text("Low"))), tmp_path)
    assert list(operators(reader)).count(b"Tf") == 1
    assert reader.pages[0].extract_text() == "Low"


def test_a_missing_glyph_is_never_a_silent_box():
    with pytest.raises(MissingGlyphError, match="black star"):
        pdf_of(leaf(Text(1, 1, "★", "Spectral Regular", 4, (1.0,))))


def test_state_is_told_again_only_where_it_changes(tmp_path):
    line = polyline([(1, 1), (9, 1)])
    strokes = [
        Stroke((line,), 0.5),
        Stroke((line,), 0.5),
        Stroke((line,), 0.25, 0.5, "round", "round", (1, 2)),
    ]
    used = list(operators(reader_of(pdf_of(leaf(*strokes)), tmp_path)))
    assert used.count(b"w") == used.count(b"G") == used.count(b"J") == used.count(b"d") == 2
    assert used.count(b"S") == 3


def greys(data, scale=10):
    """How dark each pixel of a page is, row by row, at `scale` pixels a millimetre."""
    page = pypdfium2.PdfDocument(data)[0]
    return page.render(scale=scale * POINT, no_smoothpath=True).to_numpy().min(axis=2)


@pytest.mark.parametrize("width", [0.5, 2.0])
def test_a_line_is_as_thick_as_it_was_asked_for(width):
    line = Stroke((polyline([(50, 20), (50, 120)]),), width)
    across = greys(pdf_of(leaf(line)))[700]
    assert (across < 128).sum() == pytest.approx(width * 10, abs=1)


@pytest.mark.parametrize("grey", [0.0, 0.25, 0.5, 0.75])
def test_all_is_painted_in_its_own_grey(grey):
    black = Fill((rectangle(80, 100, 10, 10),))
    area = Fill((rectangle(10, 10, 20, 20),), grey)
    line = Stroke((polyline([(50, 20), (50, 120)]),), 4, grey)
    letter = text("—", x=70, y=60, size=30, grey=grey)
    seen = greys(pdf_of(leaf(black, area, line, black, letter)))
    assert seen[1050, 850] == 0
    assert [seen[200, 200], seen[700, 500]] == pytest.approx([255 * grey] * 2, abs=1)
    assert seen[300:700, 700:].min() == pytest.approx(255 * grey, abs=1)


def test_a_dash_and_a_curve_come_out(tmp_path):
    data = pdf_of(leaf(Stroke((disc((50, 50), 10),), 1, dash=(2, 1))))
    page = pypdfium2.PdfDocument(data)[0]
    (found,) = page.get_objects()
    left, _, right, _ = (value * POINT for value in found.get_bounds())
    assert left <= 40 + 0.01
    assert right >= 60 - 0.01
    assert b"[5.6693 2.8346] 0 d" in reader_of(data, tmp_path).pages[0].get_contents().get_data()


LABELS = ["i", "ii", "iii", "1", "2", "5", "6", "A", "A", "xii"]


def test_every_page_has_its_label(tmp_path):
    data = pdf_of(*(leaf(text("x"), label=label) for label in LABELS))
    assert reader_of(data, tmp_path).page_labels == LABELS


def test_labels_go_out_in_the_fewest_ranges():
    ranges = list(label_ranges(["i", "ii", "iii", "1", "2", "3"]))
    assert ranges == [(0, "/r", 1, ""), (3, "/D", 1, "")]


def test_roman_figures():
    known = {
        1: "i",
        4: "iv",
        9: "ix",
        14: "xiv",
        40: "xl",
        90: "xc",
        444: "cdxliv",
        1994: "mcmxciv",
    }
    assert {number: roman(number) for number in known} == known


def linked():
    return (
        leaf(text("Contents"), Link(10, 10, 30, 5, "sluice"), label="i"),
        leaf(Group(20, 30, (Anchor("sluice", 12),)), text("Sluice"), label="1", bleed=3.0),
        leaf(Anchor("reed", 0), text("Reed"), label="2"),
    )


def test_a_link_leads_to_its_anchor_without_a_border(tmp_path):
    reader = reader_of(pdf_of(*linked()), tmp_path)
    (link,) = reader.pages[0]["/Annots"]
    link = link.get_object()
    assert [float(v) * POINT for v in link["/Rect"]] == pytest.approx([10, 135, 40, 140], abs=0.001)
    assert link["/Border"] == [0, 0, 0]
    page, kind, _, top, _ = link["/Dest"]
    assert page.idnum == reader.pages[1].indirect_reference.idnum
    assert kind == "/XYZ"
    assert float(top) * POINT == pytest.approx(150 + 3 - 42, abs=0.001)


OUTLINE = (
    OutlineEntry("Puzzles", "sluice"),
    OutlineEntry("1 The Sluice — “Low”", "sluice", 1),
    OutlineEntry("2 Reed", "reed", 1),
    OutlineEntry("Answers", "reed"),
)


def test_the_outline_nests_and_leads_to_its_pages(tmp_path):
    reader = reader_of(pdf_of(*linked(), outline=OUTLINE), tmp_path)
    puzzles, inside, answers = reader.outline
    assert [entry.title for entry in (puzzles, *inside, answers)] == [e.title for e in OUTLINE]
    assert [reader.get_destination_page_number(e) for e in (puzzles, *inside, answers)] == [
        1,
        1,
        2,
        2,
    ]
    root = reader.trailer["/Root"]
    assert root["/PageMode"] == "/UseOutlines"
    # ISO 32000-1, table 152: all entries that are seen, as none is folded up.
    assert root["/Outlines"]["/Count"] == 4
    assert [root["/Outlines"]["/First"].get("/Count"), answers.get("/Count", 0)] == [2, 0]


@pytest.mark.parametrize(
    "document",
    [
        Document((leaf(Link(1, 1, 1, 1, "nowhere")),), Info("T")),
        Document((leaf(),), Info("T"), (OutlineEntry("x", "nowhere"),)),
    ],
)
def test_a_link_that_leads_nowhere_is_refused(document):
    with pytest.raises(ValueError, match="nowhere"):
        pdf_of_document(document)


def test_a_reader_s_program_is_told_title_author_and_language(tmp_path):
    info = Info("The Saltmarsh Almanac", "Ida Marsh", "Puzzles — “café”", "en-GB")
    reader = reader_of(pdf_of(leaf(), info=info), tmp_path)
    told = reader.metadata
    assert (told.title, told.author, told.subject) == (info.title, info.author, info.subject)
    assert told.creator == told.producer == "Reglet"
    xmp = reader.xmp_metadata
    assert xmp.dc_title == {"x-default": info.title}
    assert xmp.dc_description == {"x-default": info.subject}
    assert (xmp.dc_creator, xmp.dc_language) == ([info.author], [info.language])
    assert xmp.pdf_producer == xmp.xmp_creator_tool == "Reglet"
    root = reader.trailer["/Root"]
    assert root["/Lang"] == "en-GB"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"].value is True


def test_a_reader_s_program_is_told_no_date_and_nothing_that_is_empty(tmp_path):
    reader = reader_of(pdf_of(leaf()), tmp_path)
    assert set(reader.metadata) == {"/Title", "/Creator", "/Producer"}
    assert b"Date" not in reader.trailer["/Root"]["/Metadata"].get_data()


@pytest.mark.parametrize("title", ["a\x01b", "\ud800", "<b> & \ufffe"])
def test_a_title_that_no_xml_can_hold_is_told_as_far_as_it_can_be(title, tmp_path):
    reader = reader_of(pdf_of(leaf(), info=Info(title)), tmp_path)
    assert reader.trailer["/Root"]["/Metadata"].get_data().endswith(b"\n")


def test_the_file_is_sound_and_of_its_version():
    data = pdf_of(*linked(), outline=OUTLINE)
    assert data.startswith(b"%PDF-1.4\n")
    with pikepdf.open(BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []


def test_the_file_s_id_follows_from_what_is_in_it(tmp_path):
    def id_of(*leaves):
        one, other = reader_of(pdf_of(*leaves), tmp_path).trailer["/ID"]
        assert one == other
        return one.original_bytes

    low, high = leaf(text("Low")), leaf(text("High"))
    assert id_of(low) == id_of(low)
    assert len({id_of(low), id_of(high), id_of(low, high)}) == 3
    assert len(id_of(low)) == 16


MAKE = """
import hashlib
from tests.support.drawn import board_style, full_puzzle
from layout.board.board import draw_board
from layout.writers.pdf import pdf_of_picture
from layout.writers.svg import svg_of_picture
picture = draw_board(full_puzzle(), board_style(), 80)
print(hashlib.sha256(pdf_of_picture(picture) + svg_of_picture(picture)).hexdigest())
"""


def test_two_processes_write_the_same_bytes():
    def run(seed):
        env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
        done = subprocess.run(
            [sys.executable, "-c", MAKE], env=env, capture_output=True, check=True
        )
        return done.stdout

    assert run("1") == run("77")


def test_an_empty_page_is_a_page(tmp_path):
    reader = reader_of(pdf_of(leaf(), leaf(text("x"))), tmp_path)
    assert len(reader.pages) == 2
    assert reader.pages[0].extract_text() == ""
