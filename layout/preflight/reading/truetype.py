"""The outlines' bounds and the codes of a TrueType font, read from its tables.

OpenType 1.9: `head`, `loca`, `glyf` and `cmap` of formats 0, 4 and 6.
"""

import struct
from collections.abc import Mapping
from dataclasses import dataclass
from struct import unpack_from
from typing import Final

from layout.preflight.reading.geometry import Box
from layout.preflight.reading.streams import Unread

SYMBOL: Final = 0xF000
"""Where a symbolic font for Windows has its codes."""


@dataclass(frozen=True, slots=True)
class TrueType:
    """A font program: glyphs by code, and the bounds of each glyph in ems."""

    codes: Mapping[int, int]
    bounds: tuple[Box | None, ...]
    """None for a glyph without an outline."""
    advances: tuple[float, ...]
    """How far each glyph moves on, in ems."""

    def glyph(self, code: int, char: str) -> int:
        """The glyph of a code that stands for a character; 0 where the font has none."""
        tried = (code, SYMBOL + code, ord(char) if len(char) == 1 else code)
        return next((self.codes[each] for each in tried if self.codes.get(each)), 0)


def read_truetype(data: bytes) -> TrueType:
    """The font of a file's bytes. Raises Unread for what is none."""
    try:
        return _read(data, _tables(data))
    except (struct.error, KeyError, IndexError, ValueError, ZeroDivisionError) as fault:
        raise Unread("a font program that is no TrueType font") from fault


def _tables(data: bytes) -> dict[bytes, int]:
    count = unpack_from(">H", data, 4)[0]
    entries = (unpack_from(">4s3L", data, 12 + 16 * index) for index in range(min(count, 64)))
    return {tag: offset for tag, _, offset, _ in entries}


def _read(data: bytes, tables: Mapping[bytes, int]) -> TrueType:
    head, loca, glyf = tables[b"head"], tables[b"loca"], tables[b"glyf"]
    em = unpack_from(">H", data, head + 18)[0]
    long = unpack_from(">h", data, head + 50)[0]
    count = unpack_from(">H", data, tables[b"maxp"] + 4)[0]
    offsets = unpack_from(f">{count + 1}{'L' if long else 'H'}", data, loca)
    starts = [glyf + offset * (1 if long else 2) for offset in offsets]
    bounds = tuple(
        None if starts[glyph] == starts[glyph + 1] else _bounds(data, starts[glyph], em)
        for glyph in range(count)
    )
    return TrueType(_codes(data, tables.get(b"cmap")), bounds, _advances(data, tables, count, em))


def _bounds(data: bytes, start: int, em: int) -> Box:
    left, bottom, right, top = unpack_from(">4h", data, start + 2)
    return Box(left / em, bottom / em, right / em, top / em)


def _advances(data: bytes, tables: Mapping[bytes, int], count: int, em: int) -> tuple[float, ...]:
    """The advance of each glyph; those after the last that is told are as wide as that."""
    told = min(unpack_from(">H", data, tables[b"hhea"] + 34)[0], count)
    widths = [unpack_from(">H", data, tables[b"hmtx"] + 4 * at)[0] / em for at in range(told)]
    return (*widths, *[widths[-1]] * (count - told))


def _codes(data: bytes, cmap: int | None) -> dict[int, int]:
    """Glyphs by code, of all subtables that are understood."""
    if cmap is None:
        return {}
    found: dict[int, int] = {}
    for index in range(min(unpack_from(">H", data, cmap + 2)[0], 32)):
        at = cmap + unpack_from(">L", data, cmap + 4 + 8 * index + 4)[0]
        form = unpack_from(">H", data, at)[0]
        if form == 0:
            found.update(enumerate(data[at + 6 : at + 262]))
        elif form == 6:
            first, count = unpack_from(">2H", data, at + 6)
            found.update(enumerate(unpack_from(f">{count}H", data, at + 10), first))
        elif form == 4:
            found.update(_segments(data, at))
    return found


def _segments(data: bytes, at: int) -> dict[int, int]:
    """A subtable of format 4: runs of codes."""
    double = unpack_from(">H", data, at + 6)[0]
    count = double // 2
    ends = unpack_from(f">{count}H", data, at + 14)
    starts = unpack_from(f">{count}H", data, at + 16 + double)
    moves = unpack_from(f">{count}h", data, at + 16 + 2 * double)
    places = at + 16 + 3 * double
    ranges = unpack_from(f">{count}H", data, places)
    found = {}
    for index, (start, end) in enumerate(zip(starts, ends, strict=True)):
        for code in range(start, min(end, 0xFFFE) + 1):
            glyph = code
            if ranges[index]:
                inside = places + 2 * index + ranges[index] + 2 * (code - start)
                glyph = unpack_from(">H", data, inside)[0]
            found[code] = (glyph + moves[index]) & 0xFFFF if glyph else 0
    return found
