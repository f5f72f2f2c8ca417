"""Small fonts for tests: some letters of a font that is installed, with cubic outlines."""

from functools import cache
from io import BytesIO

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.ttLib import TTFont

from layout.type.fonts import find_font

LETTERS = "".join(map(chr, range(0x20, 0x7F))) + "\u00a0–—‘’“”…•·©"


@cache
def otf(source: str = "Spectral Regular", fs_type: int = 0, name: str = "Creek") -> bytes:
    """An OpenType font with CFF outlines, as large as the font that its letters are of."""
    with TTFont(find_font(source)) as font:
        cmap, glyphs = font.getBestCmap(), font.getGlyphSet()
        chars = {ord(char): cmap[ord(char)] for char in LETTERS if ord(char) in cmap}
        order = [".notdef", *dict.fromkeys(chars.values())]
        strings, metrics = {}, {}
        for glyph in order:
            pen = T2CharStringPen(glyphs[glyph].width, glyphs)
            glyphs[glyph].draw(pen)
            strings[glyph] = pen.getCharString()
            metrics[glyph] = (glyphs[glyph].width, 0)
        builder = FontBuilder(font["head"].unitsPerEm, isTTF=False)
        builder.setupGlyphOrder(order)
        builder.setupCharacterMap(chars)
        builder.setupCFF(f"{name}-Regular", {}, strings, {})
        builder.setupHorizontalMetrics(metrics)
        ascent, descent = font["hhea"].ascent, font["hhea"].descent
    builder.setupHorizontalHeader(ascent=ascent, descent=descent)
    names = {"familyName": name, "styleName": "Regular", "psName": f"{name}-Regular"}
    builder.setupNameTable(names)
    builder.setupOS2(sTypoAscender=ascent, sTypoDescender=descent, fsType=fs_type)
    builder.setupPost()
    file = BytesIO()
    builder.save(file)
    return file.getvalue()
