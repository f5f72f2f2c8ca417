"""PNG and TIFF files, read back with Pillow and by their bytes."""

import struct
from io import BytesIO

import pytest
from PIL import Image

from layout.picture.board import draw_board
from layout.picture.items import Fill, Picture
from layout.picture.raster import TooLarge, pixels, png_of_picture, tiff_of_picture
from layout.picture.shapes import rectangle
from tests.support.drawn import board_style, full_puzzle

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


@pytest.mark.parametrize("dpi", [72, 300, 600])
def test_a_tiff_tells_its_resolution(dpi):
    """TIFF 6.0: XResolution 282, YResolution 283, ResolutionUnit 296 (2 is the inch)."""
    tags = Image.open(BytesIO(tiff_of_picture(half(), dpi))).tag_v2
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


def test_too_many_pixels_are_refused_before_they_are_drawn():
    with pytest.raises(TooLarge, match="fewer dots"):
        png_of_picture(half(900, 900), 2400)
