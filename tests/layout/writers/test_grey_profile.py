"""Profiles of grey printing, opened by littleCMS and found in the files that carry them."""

from io import BytesIO

import pikepdf
import pytest
from PIL import Image, ImageCms

from layout.board.board import draw_board
from layout.writers.captions import Caption, with_caption
from layout.writers.grey_profile import grey_profile, is_grey_profile, profile_name
from layout.writers.pdf import pdf_of_picture
from layout.writers.raster import png_of_picture, tiff_of_picture
from tests.support.drawn import board_style, full_puzzle

CAPTION = Caption("Tide", "Digits.", "Ida Marsh", "", "")


def light(profile, grey):
    """What a grey of a file comes out as on a screen, of 255, by littleCMS."""
    source = ImageCms.ImageCmsProfile(BytesIO(profile))
    shown = ImageCms.createProfile("sRGB")
    change = ImageCms.buildTransform(source, shown, "L", "RGB")
    image = ImageCms.applyTransform(Image.new("L", (1, 1), grey), change)
    return image.split()[0].getextrema()[0]


def srgb(share):
    """A share of light as sRGB writes it, of 255 (IEC 61966-2-1)."""
    return 255 * (1.055 * share ** (1 / 2.4) - 0.055)


@pytest.mark.parametrize("gain", [0.0, 0.14, 0.26])
def test_half_of_the_ink_throws_back_so_much_less_light(gain):
    profile = grey_profile(gain)
    assert (light(profile, 0), light(profile, 255)) == (0, 255)
    half = 1 - 127 / 255
    ink = half + 4 * gain * half * (1 - half)
    assert light(profile, 127) == pytest.approx(srgb(1 - ink), abs=1.5)


def test_a_profile_is_a_printers_and_grey_and_has_a_name():
    profile = grey_profile(0.26)
    opened = ImageCms.ImageCmsProfile(BytesIO(profile)).profile
    assert (opened.device_class, opened.xcolor_space.strip()) == ("prtr", "GRAY")
    assert opened.profile_description == profile_name(profile) == "Grey, 26% dot gain"
    assert is_grey_profile(profile)
    assert len(profile) == int.from_bytes(profile[:4], "big")
    assert not is_grey_profile(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())


def test_images_and_files_carry_it_and_go_on_to_with_their_captions():
    profile = grey_profile(0.26)
    picture = draw_board(full_puzzle(), board_style(), 40)
    for name, write in (("png", png_of_picture), ("tiff", tiff_of_picture)):
        data = with_caption(write(picture, 100, profile=profile), CAPTION, name)
        assert Image.open(BytesIO(data)).info["icc_profile"] == profile
        plain = write(picture, 100, one_bit=True, profile=profile)
        assert "icc_profile" not in Image.open(BytesIO(plain)).info
    data = with_caption(pdf_of_picture(picture, profile=profile), CAPTION, "pdf")
    with pikepdf.open(BytesIO(data)) as pdf:
        (intent,) = pdf.Root.OutputIntents
        assert intent.DestOutputProfile.read_bytes() == profile
        assert int(intent.DestOutputProfile.N) == 1
        assert str(intent.Info) == "Grey, 26% dot gain"
        assert "/GTS_PDFXVersion" not in pdf.docinfo
