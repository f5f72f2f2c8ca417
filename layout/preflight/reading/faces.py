"""Fonts of a file: what each code says, how wide it is, and where its ink lies."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, Final

from layout.preflight.reading.geometry import Box
from layout.preflight.reading.streams import MOST_BYTES, Unread, bytes_of
from layout.preflight.reading.truetype import TrueType, read_truetype

SUBSET: Final = re.compile(r"[A-Z]{6}\+")
"""How the name of a subset begins (ISO 32000-1, 9.6.4)."""

USUAL_WIDTH: Final = 0.5
"""Ems of a character whose width the file does not tell."""

MOST_CODES: Final = 65_536
"""Codes that a map of a font may tell of."""


@dataclass(frozen=True, slots=True)
class Glyph:
    """What a code of a font shows: its text, its advance and its ink in ems.

    `ink` is None for a space. `drawn` is False where the font has no glyph of its own for it,
    so that a box is printed; `told` where the file says what its text is; `fits` where the file's
    width is the font's own.
    """

    text: str
    advance: float
    ink: Box | None
    drawn: bool = True
    told: bool = True
    fits: bool = True


UNKNOWN: Final = Glyph("\ufffd", USUAL_WIDTH, None, drawn=False, told=False)
"""What a code shows that the font says nothing of."""


@dataclass(frozen=True, slots=True)
class Face:
    """A font; `wide` where its codes have two bytes each. `fault` says what can't be read of it."""

    name: str
    subset: str
    embedded: bool
    wide: bool = False
    fault: str = ""
    glyphs: dict[int, Glyph] = field(default_factory=dict, compare=False, repr=False)

    def codes(self, data: bytes) -> Iterator[int]:
        """The codes of a string."""
        if not self.wide:
            yield from data
            return
        for at in range(0, len(data) - 1, 2):
            yield data[at] << 8 | data[at + 1]

    def glyph(self, code: int) -> Glyph:
        """What a code shows."""
        return self.glyphs.get(code, UNKNOWN)


def read_face(font: Any) -> Face:
    """A font of the file. What can't be read of it is its fault."""
    base = str(font.get("/BaseFont", "/unnamed"))[1:]
    tag = SUBSET.match(base)
    name, subset = base[7:] if tag else base, tag.group()[:6] if tag else ""
    inner = font
    wide = font.get("/Subtype") == "/Type0"
    if wide:
        inner = font.DescendantFonts[0]
    descriptor = inner.get("/FontDescriptor")
    program = _program(descriptor)
    face = Face(name, subset, program is not None or font.get("/Subtype") == "/Type3", wide)
    try:
        drawn = _outlines(descriptor)
        texts = _texts(font)
        widths = _wide_widths(inner) if wide else _widths(font)
    except Unread as unread:
        return Face(name, subset, face.embedded, wide, str(unread))
    for code in sorted({*texts, *widths})[:MOST_CODES]:
        face.glyphs[code] = _glyph(code, texts.get(code), widths.get(code), drawn, wide)
    return face


def _program(descriptor: Any) -> Any:
    if descriptor is None:
        return None
    keys = ("/FontFile", "/FontFile2", "/FontFile3")
    return next((descriptor[key] for key in keys if key in descriptor), None)


def _outlines(descriptor: Any) -> TrueType | None:
    """The font program, if it is a TrueType font."""
    if descriptor is None or "/FontFile2" not in descriptor:
        return None
    return read_truetype(bytes_of(descriptor.FontFile2))


def _glyph(
    code: int, text: str | None, width: float | None, program: TrueType | None, wide: bool
) -> Glyph:
    told = text is not None
    said = text if text is not None else chr(code)
    advance = USUAL_WIDTH if width is None else width
    if program is None:
        ink = None if said.isspace() else Box(0.0, -0.2, advance, 0.75)
        return Glyph(said, advance, ink, told=told)
    index = code if wide else program.glyph(code, said)
    if index >= len(program.bounds):
        return Glyph(said, advance, None, drawn=False, told=told)
    fits = abs(program.advances[index] - advance) < 0.002
    return Glyph(said, advance, program.bounds[index], index > 0, told, fits)


def _widths(font: Any) -> dict[int, float]:
    first = int(font.get("/FirstChar", 0))
    widths = list(font.get("/Widths", ()))[:256]
    return {first + at: float(width) / 1000 for at, width in enumerate(widths)}


def _wide_widths(inner: Any) -> dict[int, float]:
    """The widths of a font with codes of two bytes (ISO 32000-1, 9.7.4.3)."""
    items, found, at = list(inner.get("/W", ()))[:MOST_CODES], {}, 0
    while at + 1 < len(items):
        first, second = int(items[at]), items[at + 1]
        if hasattr(second, "__len__"):
            found.update({first + step: float(width) / 1000 for step, width in enumerate(second)})
            at += 2
        else:
            last = min(int(second), first + MOST_CODES)
            found.update(dict.fromkeys(range(first, last + 1), float(items[at + 2]) / 1000))
            at += 3
    return found


def _texts(font: Any) -> dict[int, str]:
    """What each code says, by the font's own map; a font without one says what Latin does."""
    stream = font.get("/ToUnicode")
    if stream is None or isinstance(stream, str) or not hasattr(stream, "read_raw_bytes"):
        return {}
    return dict(_mapped(bytes_of(stream, MOST_BYTES // 16)))


_SINGLE: Final = re.compile(rb"beginbfchar(.*?)endbfchar", re.S)
_RANGES: Final = re.compile(rb"beginbfrange(.*?)endbfrange", re.S)
_PAIR: Final = re.compile(rb"<\s*([0-9A-Fa-f]+)\s*>\s*<\s*([0-9A-Fa-f\s]+)>")
_RUN: Final = re.compile(
    rb"<\s*([0-9A-Fa-f]+)\s*>\s*<\s*([0-9A-Fa-f]+)\s*>\s*(?:<\s*([0-9A-Fa-f\s]+)>|\[([^\]]*)\])"
)
_WORD: Final = re.compile(rb"<\s*([0-9A-Fa-f\s]+)>")


def _mapped(data: bytes) -> Iterator[tuple[int, str]]:
    """Codes and their texts, of the two kinds of list in a map (ISO 32000-1, 9.10.3)."""
    for part in _SINGLE.findall(data):
        for code, text in _PAIR.findall(part):
            yield int(code[:8], 16), _text(text)
    for part in _RANGES.findall(data):
        for first, last, text, several in _RUN.findall(part):
            start, end = int(first[:8], 16), int(last[:8], 16)
            codes = range(start, min(end, start + MOST_CODES) + 1)
            if text:
                said = _text(text)
                for step, code in enumerate(codes):
                    yield code, said[:-1] + chr(min(ord(said[-1]) + step, 0x10FFFF))
            else:
                yield from zip(codes, map(_text, _WORD.findall(several)), strict=False)


def _text(digits: bytes) -> str:
    """Text from the digits of its UTF-16."""
    plain = b"".join(digits.split()).decode("ascii")
    pairs = bytes.fromhex(plain[: len(plain) // 4 * 4])
    return pairs.decode("utf-16-be", "replace") or "\ufffd"
