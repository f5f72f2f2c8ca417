"""A second ink beside black: its plate in files for a press, its light on screens."""

from io import BytesIO

import pikepdf
import pytest
from PIL import Image, ImageChops

from layout.board.board import draw_board
from layout.picture.document import Document, Info, Leaf
from layout.picture.ink import in_ink, shade
from layout.picture.items import Fill, Ink, Stroke, Text
from layout.picture.shapes import polyline, rectangle
from layout.preflight.checks.inks import check_inks, spot_inks
from layout.preflight.reading.opening import read_bytes
from layout.type.fonts import font
from layout.writers.pdf import pdf_of_document, pdf_of_picture
from layout.writers.pdf_x import Press
from layout.writers.raster import png_of_picture, tiff_of_picture
from layout.writers.svg import svg_of_picture
from tests.support.drawn import board_style, full_puzzle

SPOT = Ink("Slack Water", (0.6, 0.3, 0.34, 0.36))
MIXED = Ink("", SPOT.parts)
AREA = (rectangle(10, 10, 40, 40),)


def page(ink, *more):
    """An area in so much of an ink, and what lies over it."""
    return Document((Leaf(60, 60, (Fill(AREA, 0.5, ink), *more), "1", 3.0),), Info("Tide"))


def told(document, **how):
    """The operators of its one page, without what they are given, and its resources."""
    data = pdf_of_document(document, **how)
    with pikepdf.open(BytesIO(data)) as pdf:
        found = pikepdf.parse_content_stream(pdf.pages[0])
        spaces = pdf.pages[0].Resources.get("/ColorSpace", {})
        named = {str(key): space.unparse(resolved=True) for key, space in spaces.items()}
        return [(str(each.operator), [*map(str, each.operands)]) for each in found], named


def test_a_spot_ink_has_a_plate_of_its_own_made_of_cmyk_where_there_is_none():
    operators, spaces = told(page(SPOT), press=Press())
    assert ("cs", ["/Ink1"]) in operators
    assert ("scn", ["0.5"]) in operators
    (space,) = spaces.values()
    for part in (b"/Separation", b"/Slack#20Water", b"/DeviceCMYK", b"/C1 [ 0.6 0.3 0.34 0.36 ]"):
        assert part in space


def test_an_ink_without_a_name_is_made_of_four():
    operators, spaces = told(page(MIXED), press=Press())
    (values,) = [values for name, values in operators if name == "k"]
    assert [float(each) for each in values] == [0.3, 0.15, 0.17, 0.18]
    assert not spaces


def test_on_a_screen_it_is_light():
    operators, spaces = told(page(SPOT), for_screen=True, tagged=True)
    (values,) = [values for name, values in operators if name == "rg"]
    shown = shade(SPOT, 0.5)
    assert [float(each) for each in values] == pytest.approx(
        [shown.red, shown.green, shown.blue], abs=1e-4
    )
    assert (shown.red, shown.green) == pytest.approx((0.7 * 0.82, 0.85 * 0.82))
    assert not spaces
    assert not {name for name, _ in operators} & {"cs", "scn", "k", "gs"}


@pytest.mark.parametrize("ink", [SPOT, MIXED])
def test_black_prints_over_it_and_white_leaves_it_out(ink):
    """Paper would show along every line where plates shift, and a white edge would not."""
    line = polyline([(0, 20), (60, 20)])
    word = font("Spectral Regular").advances("tide")
    document = page(
        ink,
        Stroke((line,), 1.0),
        Stroke((line,), 0.5, 1.0),
        Text(12, 40, "tide", "Spectral Regular", 4.0, word),
        Fill(AREA, 0.2, ink),
    )
    data = pdf_of_document(document, Press())
    with pikepdf.open(BytesIO(data)) as pdf:
        states = pdf.pages[0].Resources.ExtGState
        over, painted = False, []
        for each in pikepdf.parse_content_stream(pdf.pages[0]):
            if str(each.operator) == "gs":
                state = states[str(each.operands[0])]
                assert state.op == state.OP
                over = bool(state.OP)
            elif str(each.operator) in ("f", "S", "Tj", "TJ"):
                painted.append((str(each.operator), over))
    assert [each[1] for each in painted] == [False, True, False, True, False]


def test_pages_in_black_alone_know_nothing_of_it():
    operators, spaces = told(page(None), press=Press())
    assert not spaces
    assert not {name for name, _ in operators} & {"cs", "scn", "k", "gs", "rg"}


def test_pictures_show_it_in_colour_and_presses_with_one_ink_as_a_grey():
    picture = draw_board(full_puzzle(), board_style("two-inks"), 60)
    whole = board_style("two-inks").ink
    assert whole is not None
    levels = [round(light * 255) for light in (shade(whole, 0).red, shade(whole, 0).green)]
    assert f"#{levels[0]:02x}{levels[1]:02x}".encode() in svg_of_picture(picture)
    image = Image.open(BytesIO(png_of_picture(picture, 100)))
    assert image.mode == "RGB"
    red, green, _ = image.split()
    assert ImageChops.difference(red, green).getbbox()
    plain = draw_board(full_puzzle(), board_style(), 60)
    assert Image.open(BytesIO(png_of_picture(plain, 100))).mode == "L"
    assert Image.open(BytesIO(tiff_of_picture(picture, 100))).mode == "L"
    assert Image.open(BytesIO(png_of_picture(picture, 100, one_bit=True))).mode == "1"


def test_digits_and_lines_stay_black_and_halos_white():
    picture = draw_board(full_puzzle(), board_style("two-inks"), 60)
    assert all(item.ink is None for item in picture.items if isinstance(item, Text))
    assert all(
        item.ink is None
        for item in picture.items
        if isinstance(item, Stroke | Fill) and item.grey == 1
    )
    assert any(item.ink for item in picture.items if isinstance(item, Stroke | Fill))
    white = Fill(AREA, 1.0)
    assert in_ink(white, SPOT) is white


def test_a_finished_file_tells_its_plates_and_one_too_many():
    file = read_bytes(pdf_of_picture(draw_board(full_puzzle(), board_style("two-inks"), 60)), "x")
    assert spot_inks(file) == ["Slack Water"]
    assert not list(check_inks(file))
    other = page(Ink("Mud", (0.0, 0.5, 0.5, 0.5)))
    two = Document((*page(SPOT).leaves, *other.leaves), Info("Tide"))
    (finding,) = check_inks(read_bytes(pdf_of_document(two), "x"))
    assert finding.page == 2
    assert finding.words == "found the spot inks Mud and Slack Water, expected one"
    wet = page(Ink("", (1.0, 1.0, 1.0, 0.5)), Fill(AREA, 0.0, Ink("", (1.0, 1.0, 0.9, 0.5))))
    (finding,) = check_inks(read_bytes(pdf_of_document(wet), "x"))
    assert finding.words == "found 340% of ink on one place, expected at most 300%"
