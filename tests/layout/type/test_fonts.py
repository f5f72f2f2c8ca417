"""Fonts by name: measured against fontTools, and clear errors for what is not there."""

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from layout.picture.items import Contour
from layout.type.fonts import (
    Font,
    MissingFontError,
    MissingGlyphError,
    find_font,
    font,
    installed_fonts,
)

NAMES = ["Spectral Regular", "Spectral Light Italic", "Fira Sans Medium"]
NAMES += ["Atkinson Hyperlegible Regular", "Atkinson Hyperlegible Bold"]


def fonttools_bounds(name, char):
    face = TTFont(find_font(name))
    glyphs = face.getGlyphSet()
    pen = BoundsPen(glyphs)
    glyphs[face.getBestCmap()[ord(char)]].draw(pen)
    return tuple(value / face["head"].unitsPerEm for value in pen.bounds)


@pytest.mark.parametrize("name", NAMES)
def test_bounds_are_those_of_the_ink(name):
    for char in "0123456789AHQgx":
        assert font(name).bounds(char) == pytest.approx(fonttools_bounds(name, char), abs=0.0015)


@pytest.mark.parametrize("name", NAMES)
def test_advances_without_kerning_are_those_of_the_file(name):
    face = TTFont(find_font(name))
    cmap, metrics = face.getBestCmap(), face["hmtx"]
    for char in "0123456789":
        width = metrics[cmap[ord(char)]][0] / face["head"].unitsPerEm
        assert font(name).advances(char) == pytest.approx((width,))


def test_kerning_pulls_a_pair_together_and_leaves_one_advance_a_character():
    face = font("Spectral Regular")
    apart = face.width("A") + face.width("V")
    assert face.width("AV") < apart - 0.02
    assert len(face.advances("AV To")) == 5


def test_ligatures_are_off_so_that_text_reads_back():
    face = font("Spectral Regular")
    assert len(face.advances("office fly")) == len("office fly")


def test_bounds_of_a_text_span_its_characters():
    face = font("Fira Sans Medium")
    left, bottom, right, top = face.bounds("16")
    assert left == face.bounds("1")[0]
    assert right == pytest.approx(face.advances("16")[0] + face.bounds("6")[2])
    assert (bottom, top) == (face.bounds("6")[1], face.bounds("6")[3])
    assert face.bounds(" ") == (0, 0, 0, 0)


def test_heights_are_measured_on_the_letters():
    face = font("Fira Sans Medium")
    os2 = TTFont(find_font("Fira Sans Medium"))["OS/2"]
    assert face.cap_height == pytest.approx(os2.sCapHeight / 1000, abs=0.005)
    assert face.x_height == pytest.approx(os2.sxHeight / 1000, abs=0.005)
    assert face.digit_height == face.bounds("1")[3]
    assert face.descent < 0 < face.x_height < face.cap_height < face.ascent


def test_an_outline_fills_its_bounds_upside_down():
    outline = font("Fira Sans Medium").outline("8")
    assert len(outline) == 3
    assert all(isinstance(contour, Contour) and contour.closed for contour in outline)
    ys = [segment[-1] for contour in outline for segment in contour.segments]
    _, bottom, _, top = font("Fira Sans Medium").bounds("8")
    assert min(ys) == pytest.approx(-top)
    assert max(ys) == pytest.approx(-bottom)


@pytest.mark.parametrize(
    "name",
    ["spectral  regular", "Spectral Italic", "Spectral Regular Italic", "Fira Sans Semi Bold"],
)
def test_names_may_be_written_in_several_ways(name):
    assert isinstance(font(name), Font)


def test_one_italic_has_two_names():
    assert find_font("Spectral Italic") == find_font("Spectral Regular Italic")


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("Spectrl Light", '"Spectral Light"'),
        ("Fira Sans Mediun", '"Fira Sans Medium"'),
        ("Atkinson Hyperlegible Light", '"Atkinson Hyperlegible Regular"'),
    ],
)
def test_a_font_that_is_not_installed_is_told_with_the_nearest(name, near):
    with pytest.raises(MissingFontError) as error:
        font(name)
    assert name in str(error.value)
    assert near in str(error.value)


def test_a_far_name_is_told_with_all_that_are_installed():
    with pytest.raises(MissingFontError, match="installed: Atkinson"):
        font("Q")


def test_a_missing_glyph_names_the_character_and_the_font():
    face = font("Atkinson Hyperlegible Regular")
    assert not face.has("№")
    for measure in (face.advances, face.bounds, face.outline, face.check):
        with pytest.raises(MissingGlyphError) as error:
            measure("№")
        assert str(error.value) == (
            'the font "Atkinson Hyperlegible Regular" has no "№" (U+2116, numero sign)'
        )


def test_every_installed_font_has_the_figures():
    for name in installed_fonts():
        font(name).check("0123456789")
