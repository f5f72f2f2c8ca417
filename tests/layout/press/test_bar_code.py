"""The bar code of a book, against the ISBN manual's example, a bar code library and a reader."""

import barcode
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from pypdfium2 import PdfDocument, raw

from layout.picture.document import Document, Info, Leaf
from layout.press.bar_code import BARS, HEIGHT, MODULE, WIDTH, bar_code, ean_13, isbn_over
from layout.type.face import Face
from layout.writers.pdf import pdf_of_document

MANUAL = "9780110002224"
"""ISBN Users' Manual, section 4: the example of an ISBN and its check digit."""

FONT = "Fira Sans Regular"
POINT = 72 / 25.4


def drawn(digits):
    """A page with a code and nothing else."""
    items = (
        *isbn_over("ISBN 978-0-11-000222-4", 5, 8, Face(FONT, 3, 4)),
        *bar_code(digits, 5, 8, FONT),
    )
    leaf = Leaf(WIDTH + 10, HEIGHT + 13, items, "1")
    return PdfDocument(pdf_of_document(Document((leaf,), Info("Code"))))


def test_the_isbn_manuals_example_is_read_back_from_the_page():
    image = drawn(MANUAL)[0].render(scale=300 / 72).to_pil()
    (found,) = zxingcpp.read_barcodes(image)
    assert (found.format, found.text) == (zxingcpp.BarcodeFormat.EAN13, MANUAL)


@given(st.integers(0, 10**12 - 1))
def test_bars_are_those_of_a_general_library(number):
    code = barcode.get("ean13", f"{number:012}")
    assert ean_13(code.get_fullcode()) == code.build()[0].replace("G", "1")


def test_bars_have_their_nominal_size_and_quiet_zones():
    # GS1 General Specifications: 0.33 mm a module; 113 modules are 37.29 mm; bars are 22.85 high
    page = drawn(MANUAL)[0]
    (bars,) = [each for each in page.get_objects() if each.type == raw.FPDF_PAGEOBJ_PATH]
    left, bottom, right, top = (edge / POINT for edge in bars.get_bounds())
    assert (left, right) == pytest.approx((5 + 11 * 0.33, 5 + 106 * 0.33), abs=0.01)
    assert top - bottom == pytest.approx(22.85 + 5 * 0.33, abs=0.01)
    assert pytest.approx((37.29, 25.93)) == (WIDTH, HEIGHT)
    assert pytest.approx(31.35) == BARS * MODULE


def test_digits_keep_off_the_right_quiet_zone_and_stand_under_their_bars():
    text = drawn(MANUAL)[0].get_textpage()
    boxes = [
        (
            text.get_text_range(at, 1),
            text.get_charbox(at)[0] / POINT,
            text.get_charbox(at)[2] / POINT,
        )
        for at in range(text.count_chars())
    ]
    digits = [box for box in boxes if box[0].isdigit()][-13:]
    assert "".join(char for char, *_ in digits) == MANUAL
    assert digits[0][1] >= 5
    assert digits[0][2] < 5 + 11 * MODULE
    for place, (_, left, right) in enumerate(digits[1:7]):
        first = 5 + (11 + 3 + 7 * place) * MODULE
        assert first <= left < right <= first + 7 * MODULE
    assert digits[-1][2] <= 5 + (11 + 95 - 3) * MODULE
