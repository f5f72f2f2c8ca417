"""PNG and TIFF files, read back with Pillow and by their bytes."""

import struct
from io import BytesIO
from itertools import groupby

import pytest
from PIL import Image
from PIL.TiffImagePlugin import TiffImageFile

from layout.board.board import draw_board
from layout.picture.items import Fill, Group, Picture, Stroke
from layout.picture.shapes import polyline, rectangle
from layout.writers.raster import TooLarge, pixels, png_of_picture, tiff_of_picture
from layout.writers.screen import dot_pixels, period
from tests.support.drawn import board_style, full_puzzle, plain_puzzle

# Pixels a metre for a resolution in the PNG specification's pHYs chunk (ISO/IEC 15948).
PIXELS_A_METRE = {72: 2835, 96: 3780, 170: 6693, 200: 7874, 300: 11811, 600: 23622, 1200: 47244}


def half(width=50.0, height=30.0):
    return Picture(width, height, (Fill((rectangle(0, 0, width / 2, height),)),), "Half")


def physical(data):
    at = data.index(b"pHYs") + 4
    return struct.unpack(">IIB", data[at : at + 9])


@pytest.mark.parametrize("dpi", sorted(PIXELS_A_METRE))
def test_a_png_tells_its_resolution(dpi):
    across, down, unit = physical(png_of_picture(half(5, 5), dpi))
    assert (across, down) == (PIXELS_A_METRE[dpi],) * 2
    assert unit == 1


def tags_of(data):
    """What a TIFF says of itself, by the numbers of its tags."""
    image = Image.open(BytesIO(data))
    assert isinstance(image, TiffImageFile)
    return image.tag_v2


@pytest.mark.parametrize("dpi", [72, 300, 600])
def test_a_tiff_tells_its_resolution(dpi):
    """TIFF 6.0: XResolution 282, YResolution 283, ResolutionUnit 296 (2 is the inch)."""
    tags = tags_of(tiff_of_picture(half(), dpi))
    assert (tags[282], tags[283], tags[296]) == (dpi, dpi, 2)


# 6.75 in at 1200 dpi is 8100 pixels, where a careless float gives 8101.
SIZES = [(171.45, 1200, 8100), (25.4, 300, 300), (40, 300, 472), (52, 600, 1228), (0.01, 72, 1)]


@pytest.mark.parametrize(("width", "dpi", "wanted"), SIZES)
def test_pixels_are_inches_times_dots(width, dpi, wanted):
    assert pixels(width, dpi) == wanted


@pytest.mark.parametrize("dpi", [72, 170, 300])
@pytest.mark.parametrize("make", [png_of_picture, tiff_of_picture])
def test_an_image_is_grey_and_exactly_as_large_as_asked(make, dpi):
    picture = draw_board(full_puzzle(), board_style(), 52)
    image = Image.open(BytesIO(make(picture, dpi)))
    assert image.mode == "L"
    assert image.size == (pixels(picture.width, dpi), pixels(picture.height, dpi))


@pytest.mark.parametrize("make", [png_of_picture, tiff_of_picture])
def test_ink_lands_where_the_vectors_are(make):
    image = Image.open(BytesIO(make(half(), 254)))
    width, height = image.size
    assert (width, height) == (500, 300)
    for y in (0, 150, 299):
        row = [image.getpixel((x, y)) for x in (0, 100, 248, 251, 400, 499)]
        assert row == [0, 0, 0, 255, 255, 255]


@pytest.mark.parametrize("make", [png_of_picture, tiff_of_picture])
def test_the_same_picture_gives_the_same_bytes(make):
    picture = draw_board(full_puzzle(), board_style(), 40)
    assert make(picture, 300) == make(picture, 300)


@pytest.mark.parametrize("dpi", [300, 600, 1200])
@pytest.mark.parametrize("make", [png_of_picture, tiff_of_picture])
def test_one_bit_a_pixel(make, dpi):
    """Two values only, the resolution told, as many pixels as inches times dots."""
    picture = draw_board(full_puzzle(), board_style("newsprint"), 52)
    image = Image.open(BytesIO(make(picture, dpi, one_bit=True)))
    assert image.mode == "1"
    assert image.size == (pixels(52, dpi), pixels(picture.height, dpi))
    assert image.info["dpi"] == pytest.approx((dpi, dpi), abs=0.01)
    assert {level for level, count in enumerate(image.convert("L").histogram()) if count} == {
        0,
        255,
    }


def test_a_one_bit_png_says_so():
    """PNG specification: IHDR holds width, height, bit depth 1 and colour type 0 (grey)."""
    data = png_of_picture(half(), 300, one_bit=True)
    at = data.index(b"IHDR") + 4
    assert struct.unpack(">IIBB", data[at : at + 10]) == (591, 354, 1, 0)


def test_a_one_bit_tiff_is_packed_by_group_4():
    """TIFF 6.0: BitsPerSample 258, Compression 259 (4 is CCITT T.6), resolution in inches."""
    tags = tags_of(tiff_of_picture(half(), 1200, one_bit=True))
    assert tags[258] == (1,)
    assert tags[259] == 4
    assert (tags[282], tags[283], tags[296]) == (1200, 1200, 2)


@pytest.mark.parametrize("make", [png_of_picture, tiff_of_picture])
def test_one_bit_images_are_the_same_each_time(make):
    picture = draw_board(full_puzzle(), board_style("newsprint"), 40)
    assert make(picture, 300, one_bit=True) == make(picture, 300, one_bit=True)


def runs(row):
    """How long each run of black pixels is."""
    return [len(list(group)) for black, group in groupby(row, lambda value: value == 0) if black]


@pytest.mark.parametrize("dpi", [300, 600, 1200])
@pytest.mark.parametrize("width", [52.0, 53.3, 60.1])
def test_the_lines_of_a_grid_are_all_as_wide_as_their_kind(dpi, width):
    """And none is thinner than the half point that newspapers ask for."""
    picture = draw_board(plain_puzzle(9), board_style("newsprint"), width)
    image = Image.open(BytesIO(png_of_picture(picture, dpi, one_bit=True))).convert("L")
    across, down = image.size
    y, x = round(down / 18), round(across / 18)
    level = [image.getpixel((at, y)) for at in range(across)]
    upright = [image.getpixel((x, at)) for at in range(down)]
    for row in (level, upright):
        frame, hair, hair2, box, *others = runs(row)
        assert runs(row) == [frame, hair, hair, box, hair, hair, box, hair, hair, frame]
        assert hair == hair2
        assert others
        assert dpi * 0.5 / 72 - 0.05 <= hair < box < frame


@pytest.mark.parametrize("ink", [0.1, 0.2, 0.24, 0.5, 0.75])
@pytest.mark.parametrize("dpi", [300, 600, 1200])
def test_a_tint_becomes_dots_that_cover_as_much(ink, dpi):
    picture = Picture(20, 20, (Fill((rectangle(0, 0, 20, 20),), 1 - ink),))
    image = Image.open(BytesIO(png_of_picture(picture, dpi, one_bit=True))).convert("L")
    black = image.histogram()[0] / (image.width * image.height)
    assert black == pytest.approx(ink, abs=0.04)


@pytest.mark.parametrize("dpi", [300, 600, 1200, 2400])
def test_dots_stand_as_closely_as_newspapers_screens(dpi):
    """SNAP's screens have 85 lines to the inch; coarser ones are safe, finer ones fill in."""
    assert 60 <= dpi * 2**0.5 / period(dpi) <= 90


@pytest.mark.parametrize("side", [4, 6, 12, 22])
def test_both_dots_of_a_tile_are_alike(side):
    half_side = side // 2
    for ink in (0.1, 0.24, 0.5, 0.8):
        black = dot_pixels(ink, side)
        moved = {((x + half_side) % side, (y + half_side) % side) for x, y in black}
        assert moved == black


def test_thin_grey_lines_become_black_and_broad_ones_dots():
    def line(width):
        stroke = Stroke((polyline([(0, 5), (10, 5)]),), width, 0.5)
        image = Image.open(BytesIO(png_of_picture(Picture(10, 10, (stroke,)), 600, one_bit=True)))
        return [image.getpixel((x, image.height // 2)) for x in range(image.width)]

    assert set(line(0.3)) == {0}
    assert len(set(line(3.0))) == 2


def test_lines_in_groups_are_fitted_where_they_come_to_stand():
    """The grid of a board that is moved by parts of a pixel looks as it did."""
    board = draw_board(plain_puzzle(4), board_style("newsprint"), 30)

    def lines(x):
        picture = Picture(40, 40, (Group(x, 1.0, board.items),))
        image = Image.open(BytesIO(png_of_picture(picture, 300, one_bit=True))).convert("L")
        return runs([image.getpixel((at, 60)) for at in range(image.width)])

    assert lines(1.0) == lines(1.03) == lines(1.0617)


def test_too_many_pixels_are_refused_before_they_are_drawn():
    with pytest.raises(TooLarge, match="fewer dots"):
        png_of_picture(half(900, 900), 2400)
