"""Fonts as a PDF holds them: a subset of what is shown, and what its codes mean.

Each character that a document shows in a font gets the next number there, which is its code in
strings, two bytes long. So a code stands for one character of one font, and text reads back as it
was set. Dictionaries: ISO 32000-1, 9.7 to 9.10.
"""

import hashlib
import struct
from collections.abc import Mapping
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Final

from layout.type.fonts import Font, font

if TYPE_CHECKING:
    import pikepdf

IDLE_TABLES: Final = ("GDEF", "GPOS", "GSUB", "OS/2", "cmap", "gasp", "meta", "name", "post")
"""Tables of a font file that say nothing about glyphs which are told by their numbers."""

SYMBOLIC: Final = 1 << 2
ITALIC: Final = 1 << 6
"""Flags of a font (ISO 32000-1, table 123)."""

STEM: Final = 80
"""How thick stems are: asked for by the standard, and used only where a font is not embedded."""

NO_BREAK_SPACE: Final = "\u00a0"

MOST_IN_A_BLOCK: Final = 100
"""Entries that one block of a character map may have (Adobe technical note 5014)."""


class FontShelf:
    """The fonts of one file: which code of which font shows a character."""

    def __init__(self) -> None:
        self._fonts: dict[FilePath, _Shown] = {}
        self._codes: dict[tuple[str, str], tuple[str, str, int]] = {}

    def code(self, name: str, char: str) -> tuple[str, str, int]:
        """Resource name, code in hexadecimal and width in 1/1000 of a character.

        Raises MissingGlyphError where the font can't show it.
        """
        found = self._codes.get((name, char))
        if found is None:
            found = self._codes[name, char] = self._assign(font(name), char)
        return found

    def fonts(self, pdf: "pikepdf.Pdf") -> "pikepdf.Dictionary":
        """All fonts by their resource names, embedded in a file."""
        from pikepdf import Dictionary

        return Dictionary({shown.resource: shown.embedded(pdf) for shown in self._fonts.values()})

    def _assign(self, of: Font, char: str) -> tuple[str, str, int]:
        of.check(char)
        # Who looks for words on a page, or copies them, types no spaces that hold words together.
        char = " " if char == NO_BREAK_SPACE else char
        # By its file and not by its name, since two names of one font must not make two subsets.
        shown = self._fonts.setdefault(of.path, _Shown(of, f"/F{len(self._fonts) + 1}"))
        return shown.resource, f"{shown.number(char):04X}", shown.width(char)


class _Shown:
    """A font and its characters that a document shows, each with its number from 1."""

    def __init__(self, of: Font, resource: str) -> None:
        self.resource = resource
        self._font = of
        self._numbers: dict[str, int] = {}

    def number(self, char: str) -> int:
        return self._numbers.setdefault(char, len(self._numbers) + 1)

    def width(self, char: str) -> int:
        return _thousandths(self._font.shaper.get_glyph_h_advance(self._glyph(char)), self._font)

    def embedded(self, pdf: "pikepdf.Pdf") -> "pikepdf.Object":
        """The font, whose codes are the numbers of its only descendant's characters."""
        from pikepdf import Array, Dictionary, Name

        file, glyphs = self._subset()
        name = Name(f"/{_tag(file)}+{self._font.path.stem}")
        return pdf.make_indirect(
            Dictionary(
                Type=Name.Font,
                Subtype=Name.Type0,
                BaseFont=name,
                Encoding=Name("/Identity-H"),
                DescendantFonts=Array([self._descendant(pdf, name, file, glyphs)]),
                ToUnicode=pdf.make_stream(_character_map(self._numbers).encode("ascii")),
            )
        )

    def _descendant(
        self, pdf: "pikepdf.Pdf", name: "pikepdf.Name", file: bytes, glyphs: list[int]
    ) -> "pikepdf.Object":
        """The glyph and the width of each number; number 0 is a missing glyph, and never shown."""
        from pikepdf import Array, Dictionary, Name, String

        numbering = Dictionary(Registry=String("Adobe"), Ordering=String("Identity"), Supplement=0)
        return pdf.make_indirect(
            Dictionary(
                Type=Name.Font,
                Subtype=Name.CIDFontType2,
                BaseFont=name,
                CIDSystemInfo=numbering,
                FontDescriptor=self._descriptor(pdf, name, file),
                W=Array([1, Array([self.width(char) for char in self._numbers])]),
                CIDToGIDMap=pdf.make_stream(struct.pack(f">{len(glyphs) + 1}H", 0, *glyphs)),
            )
        )

    def _descriptor(
        self, pdf: "pikepdf.Pdf", name: "pikepdf.Name", file: bytes
    ) -> "pikepdf.Object":
        """The font as a whole, with its file."""
        import uharfbuzz
        from pikepdf import Array, Dictionary, Name

        of = self._font
        slant = of.shaper.get_style_value(uharfbuzz.StyleTag.SLANT_ANGLE)
        # OpenType specification, head table: xMin, yMin, xMax and yMax.
        box = struct.unpack(">4h", of.shaper.face.reference_table("head").data[36:44])
        return pdf.make_indirect(
            Dictionary(
                Type=Name.FontDescriptor,
                FontName=name,
                Flags=SYMBOLIC | (ITALIC if slant else 0),
                FontBBox=Array([_thousandths(value, of) for value in box]),
                ItalicAngle=round(slant),
                Ascent=round(of.ascent * 1000),
                Descent=round(of.descent * 1000),
                CapHeight=round(of.cap_height * 1000),
                StemV=STEM,
                FontFile2=pdf.make_stream(file, Length1=len(file)),
            )
        )

    def _subset(self) -> tuple[bytes, list[int]]:
        """A font file of what is shown, with its hints, and each character's glyph there."""
        import uharfbuzz

        wanted = uharfbuzz.SubsetInput()
        wanted.flags = uharfbuzz.SubsetFlags.NO_LAYOUT_CLOSURE
        wanted.unicode_set.update(map(ord, self._numbers))
        wanted.drop_table_tag_set.update(
            int.from_bytes(table.encode("ascii"), "big") for table in IDLE_TABLES
        )
        plan = uharfbuzz.SubsetPlan(self._font.shaper.face, wanted)
        kept = plan.old_to_new_glyph_mapping
        file: bytes = plan.execute().blob.data
        return file, [kept[self._glyph(char)] for char in self._numbers]

    def _glyph(self, char: str) -> int:
        glyph: int = self._font.shaper.get_nominal_glyph(ord(char))
        return glyph


def _thousandths(units: int, of: Font) -> int:
    """A length of a font file in 1/1000 of an em."""
    return round(units * 1000 / of.em)


def _tag(file: bytes) -> str:
    """Six capitals that tell one subset of a font from others (ISO 32000-1, 9.6.4)."""
    return "".join(chr(ord("A") + byte % 26) for byte in hashlib.sha256(file).digest()[:6])


def _character_map(numbers: Mapping[str, int]) -> str:
    """The characters that codes stand for, in PostScript (ISO 32000-1, 9.10.3)."""
    entries = [
        f"<{number:04X}> <{char.encode('utf-16-be').hex().upper()}>"
        for char, number in numbers.items()
    ]
    starts = range(0, len(entries), MOST_IN_A_BLOCK)
    blocks = [entries[start : start + MOST_IN_A_BLOCK] for start in starts]
    return "\n".join(
        (
            "/CIDInit /ProcSet findresource begin 12 dict begin begincmap",
            "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
            "/CMapName /Adobe-Identity-UCS def /CMapType 2 def",
            "1 begincodespacerange <0000> <FFFF> endcodespacerange",
            *("\n".join((f"{len(each)} beginbfchar", *each, "endbfchar")) for each in blocks),
            "endcmap CMapName currentdict /CMap defineresource pop end end",
        )
    )
