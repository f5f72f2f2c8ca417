"""Paragraphs: runs of words set as lines of a measure.

Paragraphs are remembered, for a book says the same things many times.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import groupby, pairwise
from typing import Final, Literal, TypeAlias

from layout.type.breaking import Breaks, LinePart, even_breaks, justified_breaks, ragged_breaks
from layout.type.face import Face, Voices
from layout.type.fonts import font, split_by_font
from layout.type.hyphens import hyphen_points
from layout.type.lines import Line, set_line
from layout.type.markup import VoicedText

Align: TypeAlias = Literal["justified", "ragged", "even"]
"""Stretched to the measure; at their natural width; or at that and about equally long."""

Piece: TypeAlias = tuple[str, str]
"""A font's name and the text that is set in it."""

HYPHEN_COST: Final = 2500.0
EMERGENCY_COST: Final = 1e6
"""What it costs to part a word of a justified text, and a word that has no place for it."""

_MARKS: Final = "“”‘’„‚«»()[].,;:!?…–—*"
"""What may stand around the letters of a word."""

_COMPOUND: Final = re.compile(r".*?[^\W\d]{2}[-–—/]+(?=[^\W\d]{2})|.+")
"""The parts of a word with hyphens or dashes between letters, each with what ends it."""


@dataclass(frozen=True, slots=True)
class _Bit:
    """A piece of a word that a line can end after, as a part of the paragraph and as text."""

    part: LinePart
    pieces: tuple[Piece, ...]


@lru_cache(maxsize=8192)
def set_paragraph(
    runs: tuple[VoicedText, ...],
    voices: Voices,
    measure: float,
    align: Align = "ragged",
    indent: float = 0.0,
    language: str = "en",
) -> tuple[Line, ...]:
    """The lines of a paragraph, none wider than the measure (millimetres).

    The first line is set for a measure less the indent. Only justified text is hyphenated, and
    a word that is wider than a line; what is still too wide then is parted anywhere.
    """
    setter = _Setter(voices, measure, measure - indent, align == "justified", language)
    bits = [bit for word in _words(runs, voices) for bit in setter.bits(word)]
    breaks = _find_breaks([bit.part for bit in bits], measure, align, indent)
    return tuple(setter.line(bits, start, end) for start, end in breaks)


def set_words(text: str, face: Face, measure: float, align: Align = "ragged") -> tuple[Line, ...]:
    """The lines of plain words in one font."""
    return set_paragraph((VoicedText(text),), Voices.of(face), measure, align)


@lru_cache(maxsize=8192)
def one_line(text: str, face: Face) -> Line:
    """Plain words in one font, however wide they run."""
    return set_line(((face.font, text),), face.size)


def _words(runs: Sequence[VoicedText], voices: Voices) -> Iterator[list[Piece]]:
    """Splits at the spaces; a word may hold pieces of several fonts."""
    word: list[Piece] = []
    for run in runs:
        for index, text in enumerate(run.text.split(" ")):
            if index and word:
                yield word
                word = []
            if text:
                word += split_by_font(getattr(voices, run.voice), text)
    if word:
        yield word


def _find_breaks(parts: Sequence[LinePart], measure: float, align: Align, indent: float) -> Breaks:
    if align == "justified":
        return justified_breaks(parts, measure, indent)
    return even_breaks(parts, measure) if align == "even" else ragged_breaks(parts, measure, indent)


class _Setter:
    """Makes the bits of words, and lines of bits, for one paragraph."""

    def __init__(
        self, voices: Voices, measure: float, first: float, justified: bool, language: str
    ) -> None:
        self.em = voices.size
        self.measure, self.first = measure, first
        self.justified, self.language = justified, language
        self.space = font(voices.roman).width(" ") * self.em

    def bits(self, word: Sequence[Piece]) -> list[_Bit]:
        """The bits of a word; a space follows the last."""
        bits: list[_Bit] = []
        for name, text in word:
            # Where a word goes on in another font no line ends between the two.
            first, *others = self._cut(name, text)
            bits[-1:] = [_joined(bits[-1], first)] if bits else [first]
            bits += others
        bits = [narrow for bit in bits for narrow in self._narrowed(bit)]
        bits[-1] = replace(bits[-1], part=replace(bits[-1].part, space=self.space))
        return bits

    def _cut(self, name: str, text: str) -> Iterator[_Bit]:
        """A text in one font, cut where a line may end."""
        hyphens = self.justified or self._width(name, text) > self.first
        for bit, hyphen in self._places(text, hyphens):
            dash = font(name).width("-") * self.em if hyphen else 0.0
            cost = HYPHEN_COST if hyphen else 0.0
            yield _Bit(LinePart(self._width(name, bit), 0.0, dash, cost), ((name, bit),))

    def _places(self, text: str, hyphens: bool) -> Iterator[tuple[str, bool]]:
        """Bits of a text, each with whether a hyphen is added where a line ends after it."""
        compound = _COMPOUND.findall(text)
        if len(compound) > 1 or not hyphens:
            yield from ((bit, False) for bit in compound)
            return
        before = len(text) - len(text.lstrip(_MARKS))
        points = hyphen_points(text.strip(_MARKS), self.language)
        for low, high in pairwise((0, *(before + point for point in points), len(text))):
            yield text[low:high], high < len(text)

    def _narrowed(self, bit: _Bit) -> Iterator[_Bit]:
        """The bit, or where it is wider than a line, as many as it takes."""
        if bit.part.width + bit.part.hyphen <= self.first:
            yield bit
            return
        for name, text in bit.pieces:
            for piece in _slices(name, text, self.first / self.em):
                part = LinePart(self._width(name, piece), cost=EMERGENCY_COST)
                yield _Bit(part, ((name, piece),))

    def _width(self, name: str, text: str) -> float:
        return font(name).width(text) * self.em

    def line(self, bits: Sequence[_Bit], start: int, end: int) -> Line:
        """A line of some bits: stretched in a justified paragraph, the last at most squeezed."""
        row: list[Piece] = []
        for bit in bits[start:end]:
            row += bit.pieces
            row.append((row[-1][0], " " if bit.part.space else ""))
        row[-1] = (row[-1][0], "-" if bits[end - 1].part.hyphen else "")
        pieces = _merged(row)
        line = set_line(pieces, self.em)
        width = self.measure if start else self.first
        if not self.justified or (end == len(bits) and line.width <= width):
            return line
        return set_line(pieces, self.em, width)


def _joined(one: _Bit, other: _Bit) -> _Bit:
    """Two bits that no line ends between."""
    width = one.part.width + other.part.width
    return _Bit(replace(other.part, width=width), one.pieces + other.pieces)


def _merged(row: Sequence[Piece]) -> list[Piece]:
    """Neighbours in the same font as one."""
    return [
        (name, "".join(text for _, text in pieces))
        for name, pieces in groupby(row, key=lambda piece: piece[0])
    ]


def _slices(name: str, text: str, ems: float) -> Iterator[str]:
    """A text in slices that each run at most so far, and hold at least one character."""
    bit, width = "", 0.0
    for char in text:
        wide = font(name).width(char)
        if bit and width + wide > ems:
            yield bit
            bit, width = "", 0.0
        bit += char
        width += wide
    if bit:
        yield bit
