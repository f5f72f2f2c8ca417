"""Fonts by name: where they lie, how wide their text runs, where the ink of a glyph is.

Fonts come from installed font packages, as static TrueType files, or are files of the editor's own
(`file:` and a path). All measures are in ems, y upwards from the baseline, unless told otherwise.
`Fira Sans Regular spaced 8%` is that font with 8 % of an em more between its letters; `Spectral
Regular else Fira Sans Regular` takes a letter that the first font has not from the second.
"""

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cache, lru_cache
from itertools import groupby
from math import fsum
from pathlib import Path as FilePath
from typing import Any, Final, TypeAlias

from layout.picture.cannot import CannotDraw
from layout.picture.items import Contour, Path, Segment
from layout.type.own_fonts import font_data, name_of
from verify.reading.node import shown

Bounds: TypeAlias = tuple[float, float, float, float]
"""Left, bottom, right and top of what is inked."""

WEIGHTS: Final[dict[int, str]] = {
    100: "Thin",
    200: "ExtraLight",
    300: "Light",
    400: "Regular",
    500: "Medium",
    600: "SemiBold",
    700: "Bold",
    800: "ExtraBold",
    900: "Black",
}
"""What the trade calls each weight (OpenType specification, OS/2 table, usWeightClass)."""

_SPACED: Final = re.compile(r"(?P<name>.+?),? spaced (?P<part>\d{1,2}(\.\d)?)\s?%")
"""A font with more between its letters, at most 99.9 % of an em."""

_STANDS_IN: Final = re.compile(r"(?P<name>.+?) else (?P<other>.+)")
"""A font, and another one for letters that it has not."""

OWN_FILE: Final = "file:"
"""What the name of a font begins with that is a file."""

PLAIN_GLYPHS: Final[dict[str, bool]] = {
    "kern": True,
    "liga": False,
    "clig": False,
    "dlig": False,
    "calt": False,
    "ccmp": False,
    "locl": False,
}
"""OpenType features that keep one glyph a character, so that text can be read back."""


class FontError(CannotDraw):
    """Something that can't be set in the fonts at hand, told to the editor."""


class MissingFontError(FontError):
    """No installed font has that name."""


class MissingGlyphError(FontError):
    """A font has no glyph for a character."""


@dataclass(frozen=True, slots=True, eq=False)
class Font:
    """One font file, opened for measuring.

    `ascent` and `descent` (negative) are the file's own; `cap_height`, `x_height` and
    `digit_height` are measured on the flat-topped H, x and 1. `spacing` is what stands between
    letters beside their own white; `stand_in` is the name of a font for letters that it has not.
    """

    name: str
    path: FilePath
    shaper: Any = field(repr=False)
    em: int
    ascent: float
    descent: float
    spacing: float = 0.0
    stand_in: str = ""

    def shows(self, char: str) -> bool:
        """Whether it has the character, or what stands in for it has."""
        return self.has(char) or bool(self.stand_in and font(self.stand_in).has(char))

    def has(self, char: str) -> bool:
        """Whether there is a glyph for the character."""
        return self.shaper.get_nominal_glyph(ord(char)) is not None

    def check(self, text: str) -> None:
        """Raises MissingGlyphError for the first character that the font can't show."""
        for char in text:
            _glyph(self, char)

    def advances(self, text: str) -> tuple[float, ...]:
        """How far each character moves the pen, kerning worked in."""
        return _advances(self, text)

    def width(self, text: str) -> float:
        """How far the whole text moves the pen."""
        return fsum(_advances(self, text))

    def bounds(self, text: str) -> Bounds:
        """Where the ink of the text lies; all zero where there is none."""
        return _bounds(self, text)

    def outline(self, char: str) -> Path:
        """The glyph's outline in ems, y downwards as in a picture."""
        return _outline(self, char)

    @property
    def cap_height(self) -> float:
        """Height of a flat capital."""
        return self.bounds("H")[3]

    @property
    def x_height(self) -> float:
        """Height of a flat small letter."""
        return self.bounds("x")[3]

    @property
    def digit_height(self) -> float:
        """Height of a figure."""
        return self.bounds("1")[3]


@cache
def font(name: str) -> Font:
    """The font of that name: family, weight, then Italic where it is one.

    Raises MissingFontError, with the nearest names, where no package that is installed has it, and
    UnfitFont for a file that can't be embedded.
    """
    import uharfbuzz

    path = find_font(name)
    own = _without_stand_in(name)
    if own.startswith(OWN_FILE):
        face = uharfbuzz.Face(uharfbuzz.Blob(font_data(path)))
        shown_name = name_of(path)
    else:
        face = uharfbuzz.Face(uharfbuzz.Blob.from_file_path(str(path)))
        shown_name = own
    shaper = uharfbuzz.Font(face)
    extents = shaper.get_font_extents("ltr")
    em = face.upem
    ascent, descent = extents.ascender / em, extents.descender / em
    spaced, second = _SPACED.fullmatch(own), _STANDS_IN.fullmatch(name)
    spacing = float(spaced["part"]) / 100 if spaced else 0.0
    stand_in = second["other"] if second else ""
    return Font(shown_name, path, shaper, em, ascent, descent, spacing, stand_in)


def _without_stand_in(name: str) -> str:
    second = _STANDS_IN.fullmatch(name)
    return second["name"] if second else name


@lru_cache(maxsize=65536)
def split_by_font(name: str, text: str) -> tuple[tuple[str, str], ...]:
    """A text as runs, each with the name of the font that it is set in: its own, or the one that
    stands in for letters which that has not.
    """
    of = font(name)
    if not of.stand_in or all(map(of.has, text)):
        return ((name, text),)
    other = font(of.stand_in)
    runs = groupby(text, lambda char: not of.has(char) and other.has(char))
    return tuple((of.stand_in if lent else name, "".join(chars)) for lent, chars in runs)


def family(name: str) -> str:
    """What a font's name says beside its weight and its slope: "Spectral Medium" is Spectral."""
    own = _without_stand_in(name)
    words = (font(own).name if own.startswith(OWN_FILE) else own).split()
    while len(words) > 1 and words[-1] in (*WEIGHTS.values(), "Italic", "Roman"):
        words.pop()
    return " ".join(words)


def find_font(name: str) -> FilePath:
    """The file of the font of that name; raises MissingFontError as `font` does."""
    name = _without_stand_in(name)
    spaced = _SPACED.fullmatch(name)
    name = spaced["name"] if spaced else name
    if name.startswith(OWN_FILE):
        return FilePath(name.removeprefix(OWN_FILE))
    path = _paths().get(_key(name))
    if path is None:
        raise MissingFontError(_not_found(name))
    return path


def installed_fonts() -> tuple[str, ...]:
    """The names of all fonts that can be used, sorted."""
    return tuple(sorted(name for name, _ in _installed()))


@cache
def _paths() -> Mapping[str, FilePath]:
    """Every installed font's file by the key of its name."""
    return {_key(name): path for name, path in _installed()}


def _installed() -> Iterator[tuple[str, FilePath]]:
    """Name and file of every static font; a Regular Italic is also called plain Italic."""
    import fontpkg

    for family in fontpkg.families().values():
        for file in family.files:
            if file.variable or file.weight not in WEIGHTS:
                continue
            weight = WEIGHTS[file.weight]
            if file.style != "italic":
                yield f"{family.name} {weight}", file.path
                continue
            yield f"{family.name} {weight} Italic", file.path
            if weight == "Regular":
                yield f"{family.name} Italic", file.path


def _key(name: str) -> str:
    """A name without case and spaces: "Semi Bold" and "SemiBold" are one."""
    return "".join(name.lower().split())


def _not_found(name: str) -> str:
    """The editor's message for a font that is not there."""
    near = get_close_matches(name, installed_fonts(), n=3, cutoff=0.5)
    if near:
        hint = "did you mean " + " or ".join(f'"{each}"' for each in near) + "?"
    else:
        hint = "installed: " + ", ".join(installed_fonts())
    return f'no font "{shown(name)}" is installed; {hint}'


def _glyph(of: Font, char: str) -> int:
    """The number of a character's glyph; raises MissingGlyphError."""
    glyph: int | None = of.shaper.get_nominal_glyph(ord(char))
    if glyph is None:
        raise MissingGlyphError(f'the font "{of.name}" has no {named(char)}')
    return glyph


def named(char: str) -> str:
    """A character by its number and name, and as it looks where a terminal may print it."""
    name = unicodedata.name(char, "a character without a name").lower()
    looks = f'"{char}" ' if char.isprintable() else ""
    return f"{looks}(U+{ord(char):04X}, {name})"


@lru_cache(maxsize=65536)
def _advances(of: Font, text: str) -> tuple[float, ...]:
    """Shapes the text; falls back on unkerned widths should a glyph not be a character's own."""
    import uharfbuzz

    if not text:
        return ()
    glyphs = [_glyph(of, char) for char in text]
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    buffer.direction = "ltr"
    uharfbuzz.shape(of.shaper, buffer, PLAIN_GLYPHS)
    if [info.codepoint for info in buffer.glyph_infos] == glyphs:
        advances = [position.x_advance / of.em for position in buffer.glyph_positions]
    else:
        advances = [of.shaper.get_glyph_h_advance(glyph) / of.em for glyph in glyphs]
    return tuple(advance + of.spacing for advance in advances)


@lru_cache(maxsize=65536)
def _bounds(of: Font, text: str) -> Bounds:
    """The union of the glyphs' bounds, each at its place."""
    boxes = []
    pen = 0.0
    for char, advance in zip(text, _advances(of, text), strict=True):
        extents = of.shaper.get_glyph_extents(_glyph(of, char))
        if extents.width and extents.height:
            left, top = extents.x_bearing, extents.y_bearing
            right, bottom = left + extents.width, top + extents.height
            boxes.append((pen + left / of.em, bottom / of.em, pen + right / of.em, top / of.em))
        pen += advance
    if not boxes:
        return (0.0, 0.0, 0.0, 0.0)
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return (min(lefts), min(bottoms), max(rights), max(tops))


@lru_cache(maxsize=4096)
def _outline(of: Font, char: str) -> Path:
    """The glyph's contours, quadratic curves raised to cubic ones."""
    pen = _OutlinePen(1 / of.em)
    of.shaper.draw_glyph_with_pen(_glyph(of, char), pen)
    return tuple(pen.contours)


class _OutlinePen:
    """Collects what the shaper draws, as contours of a picture."""

    def __init__(self, scale: float) -> None:
        self.scale = scale
        self.contours: list[Contour] = []
        self._segments: list[Segment] = []
        self._start = self._at = (0.0, 0.0)

    def moveTo(self, point: tuple[float, float]) -> None:  # noqa: N802 - the pen protocol
        self._start = self._at = self._place(point)
        self._segments = []

    def lineTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self._at = self._place(point)
        self._segments.append(self._at)

    def qCurveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        (cx, cy), (x, y) = (self._place(point) for point in points)
        (x0, y0), self._at = self._at, (x, y)
        # A quadratic's control point stands at 2/3 of the way to each of the cubic's.
        near = (x0 + (cx - x0) * 2 / 3, y0 + (cy - y0) * 2 / 3)
        far = (x + (cx - x) * 2 / 3, y + (cy - y) * 2 / 3)
        self._segments.append((*near, *far, x, y))

    def curveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        places = [self._place(point) for point in points]
        self._at = places[-1]
        self._segments.append(tuple(value for place in places for value in place))

    def closePath(self) -> None:  # noqa: N802
        self.contours.append(Contour(self._start, tuple(self._segments), closed=True))

    def _place(self, point: tuple[float, float]) -> tuple[float, float]:
        return point[0] * self.scale, -point[1] * self.scale
