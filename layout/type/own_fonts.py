"""Fonts that an editor brings along: whether a file may be embedded, and its outlines as TrueType.

Pages hold subsets of static TrueType fonts. Outlines of OpenType fonts with cubic curves (CFF) are
made into quadratic ones, as near as a thousandth of an em.
"""

from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any, Final

from layout.picture.cannot import CannotDraw

ENDINGS: Final = (".ttf", ".otf")

MOST_BYTES: Final = 16 << 20
"""The largest font file that is read."""

TOLERANCE: Final = 0.001
"""How far a quadratic curve may lie from the cubic one that it stands for, in ems."""

RESTRICTED: Final = 0x0002
USAGE: Final = 0x000F
NO_SUBSETS: Final = 0x0100
BITMAPS_ONLY: Final = 0x0200
"""What a font's fsType forbids (OpenType specification, OS/2 table)."""


class UnfitFont(CannotDraw):
    """A font file that can't be embedded; the message says why, and what to do."""


@cache
def font_data(path: Path) -> bytes:
    """A font file as TrueType that may be embedded. Raises UnfitFont."""
    import logging

    from fontTools.ttLib import TTFont

    # What it thinks of a font is no message of ours.
    logging.getLogger("fontTools").addHandler(logging.NullHandler())
    try:
        if path.stat().st_size > MOST_BYTES:
            raise UnfitFont(f"the font has more than {MOST_BYTES >> 20} MiB")
        data = path.read_bytes()
        with TTFont(BytesIO(data), recalcTimestamp=False) as file:
            _check(file)
            data = _as_truetype(file) if "glyf" not in file else data
        _try(data)
        return data
    except UnfitFont:
        raise
    except Exception as error:  # what reads fonts raises whatever befalls it
        raise UnfitFont(f"the font can't be read: {error}") from None


def _try(data: bytes) -> None:
    """Reads a font as a page's writer will. Raises whatever befalls it."""
    from reportlab.pdfbase.ttfonts import TTFontFile

    TTFontFile(BytesIO(data))


@cache
def name_of(path: Path) -> str:
    """What a font file calls itself: family and style."""
    from fontTools.ttLib import TTFont

    with TTFont(path, lazy=True) as file:
        return _name(file) or path.stem


def _name(file: Any) -> str:
    names = file["name"]
    family = names.getDebugName(16) or names.getDebugName(1)
    style = names.getDebugName(17) or names.getDebugName(2)
    return " ".join(filter(None, (family, style)))


def _check(file: Any) -> None:
    """Raises UnfitFont for what the font's maker forbids, and for what can't be set."""
    if "fvar" in file:
        raise UnfitFont("the font is variable; make a static one of the weight that you want")
    if "OS/2" not in file:
        raise UnfitFont("the font does not say whether it may be embedded")
    kind = file["OS/2"].fsType
    if kind & USAGE == RESTRICTED:
        raise UnfitFont("the font's maker does not allow it to be embedded (fsType 2)")
    if kind & NO_SUBSETS:
        raise UnfitFont("the font may only be embedded whole, and pages hold subsets (fsType 256)")
    if kind & BITMAPS_ONLY:
        raise UnfitFont("of the font only bitmaps may be embedded (fsType 512)")
    if "glyf" not in file and "CFF " not in file:
        raise UnfitFont("the font has no outlines that can be set; it wants glyf or CFF")


def _as_truetype(file: Any) -> bytes:
    """The same font with quadratic outlines."""
    from fontTools.pens.cu2quPen import Cu2QuPen
    from fontTools.pens.ttGlyphPen import TTGlyphPen
    from fontTools.ttLib import newTable

    glyphs, order = file.getGlyphSet(), file.getGlyphOrder()
    made = {}
    for name in order:
        pen = TTGlyphPen(glyphs)
        # TrueType's contours run the other way round.
        glyphs[name].draw(
            Cu2QuPen(pen, TOLERANCE * file["head"].unitsPerEm, reverse_direction=True)
        )
        made[name] = pen.glyph()
    file["loca"], file["glyf"] = newTable("loca"), newTable("glyf")
    file["glyf"].glyphOrder, file["glyf"].glyphs = order, made
    for name, glyph in made.items():
        # TrueType places a glyph by its left bearing, which cubic outlines don't need to be right.
        glyph.recalcBounds(file["glyf"])
        file["hmtx"][name] = (file["hmtx"][name][0], getattr(glyph, "xMin", 0))
    maxp = file["maxp"]
    maxp.tableVersion = 0x00010000
    for key in _NO_PROGRAMS:
        setattr(maxp, key, 1 if key == "maxZones" else 0)
    for tag in ("CFF ", "VORG"):
        if tag in file:
            del file[tag]
    file["post"].formatType = 3.0
    file.sfntVersion = "\x00\x01\x00\x00"
    out = BytesIO()
    file.save(out)
    return out.getvalue()


_NO_PROGRAMS: Final = (
    "maxZones",
    "maxTwilightPoints",
    "maxStorage",
    "maxFunctionDefs",
    "maxInstructionDefs",
    "maxStackElements",
    "maxSizeOfInstructions",
    "maxComponentElements",
    "maxPoints",
    "maxContours",
    "maxCompositePoints",
    "maxCompositeContours",
    "maxComponentDepth",
)
"""What a font without hinting programs says of them."""
