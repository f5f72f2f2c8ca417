"""Imposed sheets, read back from the finished file: which page stands where, and what is cut."""

from io import BytesIO

import pikepdf
import pypdfium2
import pytest

from layout.language.words import words_for
from layout.picture.document import Document, Info, Leaf
from layout.picture.items import Fill
from layout.picture.shapes import rectangle
from layout.press.booklet import Folding, impose
from layout.press.imposition import sheets
from layout.press.printers_marks import SLUG
from layout.press.source_pages import CannotImpose, source_pages
from layout.type.face import Face
from layout.type.paragraph import one_line
from layout.writers.pdf import pdf_of_document

POINT = 72 / 25.4
WIDTH, HEIGHT, BLEED = 100.0, 140.0, 3.0
RIM = SLUG + BLEED
FACE = Face("Fira Sans Regular", 6.0, 7.0)


def pages_of(count, items=()):
    """A file of pages that hold their number, 10 mm from the left and 20 from the top."""
    leaves = tuple(
        Leaf(
            WIDTH,
            HEIGHT,
            (*items, *one_line(f"p{number}", FACE).at(10.0, 20.0)),
            str(number),
            BLEED,
        )
        for number in range(1, count + 1)
    )
    return pdf_of_document(Document(leaves, Info("Pages")))


def imposed(data, signature=None, caliper=0.0, language="en"):
    with source_pages(data) as source:
        return impose(source, Folding(signature, caliper), "Pages", words_for(language)).data


def numbers(page):
    """The page numbers on a side, each with where its text starts, in mm from the trim's corner."""
    text = page.get_textpage()
    found = {}
    for at in range(text.count_chars()):
        if text.get_text_range(at, 1) == "p":
            digits = ""
            while text.get_text_range(at + 1 + len(digits), 1).isdigit():
                digits += text.get_text_range(at + 1 + len(digits), 1)
            if digits:
                left, _, _, top = text.get_charbox(at, loose=True)
                found[int(digits)] = (
                    left / POINT - RIM,
                    page.get_height() / POINT - RIM - top / POINT,
                )
    return found


@pytest.mark.parametrize(("count", "signature"), [(8, None), (16, None), (13, None), (24, 8)])
def test_every_page_stands_on_its_half_of_its_side(count, signature):
    pdf = pypdfium2.PdfDocument(imposed(pages_of(count), signature))
    sides = [side for sheet in sheets(count, signature) for side in (sheet.front, sheet.back)]
    assert len(pdf) == len(sides)
    for page, side in zip(pdf, sides, strict=True):
        wanted = {number: x for number, x in ((side.left, 10.0), (side.right, 110.0)) if number}
        found = numbers(page)
        assert {number: x for number, (x, _) in found.items()} == pytest.approx(wanted, abs=0.1)


def test_pages_move_to_the_fold_on_inner_sheets():
    pdf = pypdfium2.PdfDocument(imposed(pages_of(16), caliper=0.2))
    for index, sheet in enumerate(sheets(16)):
        found = numbers(pdf[2 * index])
        assert found[sheet.front.left][0] == pytest.approx(10 + 0.2 * index, abs=0.05)
        assert found[sheet.front.right][0] == pytest.approx(110 - 0.2 * index, abs=0.05)


def ink(page, x, y):
    """Whether a point of a side is black, in mm from the trim's corner."""
    scale = 6
    image = page.render(scale=scale / POINT).to_pil().convert("L")
    return image.getpixel((int((x + RIM) * scale), int((y + RIM) * scale))) < 128


def test_bleed_stays_on_the_cut_sides_and_never_goes_over_the_fold():
    # page 1, a recto, is black all over; page 8, at its left, is white
    black = Fill((rectangle(-3.0, -3.0, WIDTH + 6, HEIGHT + 6),))
    data = pdf_of_document(
        Document(
            tuple(
                Leaf(WIDTH, HEIGHT, (black,) if number == 1 else (), str(number), BLEED)
                for number in range(1, 9)
            ),
            Info("Pages"),
        )
    )
    page = pypdfium2.PdfDocument(imposed(data))[0]
    assert ink(page, 100.3, 70)
    assert ink(page, 202.7, 70)
    assert ink(page, 150, -2.7)
    assert not ink(page, 99.7, 70)
    assert not ink(page, 203.4, 70)
    assert not ink(page, 150, -3.4)


def back_again(turn, width, height):
    """What turns a page's content so that it is seen upright when its page is turned."""
    return {
        90: f"0 1 -1 0 {height} 0",
        180: f"-1 0 0 -1 {width} {height}",
        270: f"0 -1 1 0 0 {width}",
    }[turn]


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_turned_pages_stand_upright(turn):
    """Pages that a reader sees turned are placed as they are seen."""
    upright = pypdfium2.PdfDocument(imposed(pages_of(4)))
    with pikepdf.open(BytesIO(pages_of(4))) as pdf:
        for page in pdf.pages:
            left, bottom, right, top = (float(edge) for edge in page.mediabox)
            matrix = back_again(turn, right, top)
            page.contents_add(f"q {matrix} cm\n".encode(), prepend=True)
            page.contents_add(b"\nQ")
            if turn != 180:
                page.MediaBox = page.BleedBox = [left, bottom, top, right]
                trim = [float(edge) for edge in page.TrimBox]
                page.TrimBox = [trim[1], trim[0], trim[3], trim[2]]
            page.Rotate = turn
        data = BytesIO()
        pdf.save(data)
    turned = pypdfium2.PdfDocument(imposed(data.getvalue()))
    for one, other in zip(upright, turned, strict=True):
        first, second = (page.render(scale=1).to_pil().convert("L") for page in (one, other))
        differing = sum(
            abs(a - b) > 100 for a, b in zip(first.tobytes(), second.tobytes(), strict=True)
        )
        assert differing < 10


def test_the_trim_lies_in_the_bleed_and_both_in_the_medium():
    page = pypdfium2.PdfDocument(imposed(pages_of(4)))[0]
    slug, rim = SLUG * POINT, RIM * POINT
    right, top = 200 * POINT + rim, 140 * POINT + rim
    assert page.get_trimbox() == pytest.approx((rim, rim, right, top), abs=0.01)
    assert page.get_bleedbox() == pytest.approx(
        (slug, slug, right + BLEED * POINT, top + BLEED * POINT), abs=0.01
    )
    assert page.get_mediabox() == pytest.approx((0, 0, right + rim, top + rim), abs=0.01)


def test_the_slug_names_gathering_and_sheet_in_the_language():
    pdf = pypdfium2.PdfDocument(imposed(pages_of(16), signature=8, language="de"))
    said = [page.get_textpage().get_text_range() for page in pdf]
    assert "Lage 2, Bogen 1, Vorderseite" in said[4]
    assert "Lage 2, Bogen 2, Rückseite" in said[7]


def test_the_same_pages_give_the_same_bytes():
    assert imposed(pages_of(8), caliper=0.1) == imposed(pages_of(8), caliper=0.1)


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"no such thing", "it is no PDF, or is damaged"),
        (
            pdf_of_document(
                Document((Leaf(100, 140, (), "1"), Leaf(120, 140, (), "2")), Info("Two"))
            ),
            "page 2 is 120.0 x 140.0 mm, and the first is 100.0 x 140.0 mm",
        ),
    ],
)
def test_what_can_not_be_placed_is_told(data, message):
    with pytest.raises(CannotImpose) as raised, source_pages(data):
        pass
    assert str(raised.value) == message
