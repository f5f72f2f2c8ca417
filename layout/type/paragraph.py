"""Paragraphs: runs of words set as lines of a measure.

Paragraphs are remembered, for a book says the same things many times.
"""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import groupby
from typing import Final, Literal, TypeAlias

from layout.type.breaking import Breaks, Part, even_breaks, justified_breaks, ragged_breaks
from layout.type.face import Face, Voices
from layout.type.fonts import font
from layout.type.hyphens import hyphen_points
from layout.type.lines import Line, set_line
from layout.type.markup import Run

Align: TypeAlias = Literal["justified", "ragged", "even"]
"""Stretched to the measure; at their natural width; or at that and about equally long."""

Piece: TypeAlias = tuple[str, str]
"""A font's name and the text that is set in it."""

HYPHEN_COST: Final = 2500.0
EMERGENCY_COST: Final = 1e6
"""What it costs to part a word of a justified text, and a word that has no place for it."""

_MARKS: Final = "“”‘’„‚«»()[].,;:!?…–—*"
"""What may stand around the letters of a word."""


@lru_cache(maxsize=8192)
def set_paragraph(
    runs: tuple[Run, ...],
    voices: Voices,
    measure: float,
    align: Align = "ragged",
    indent: float = 0.0,
    language: str = "en",
) -> tuple[Line, ...]:
    """The lines of a paragraph, none wider than the measure (millimetres).

    The first line is set for a measure less the indent. Only justified text is hyphenated; a
    word that is wider than the measure is parted anywhere.
    """
    setter = _Setter(voices, measure, measure - indent, align, language)
    words = [setter.parts(word) for word in _words(runs, voices)]
    pieces = [piece for word in words for piece, _ in word]
    parts = _spaced([[part for _, part in word] for word in words], setter.space)
    return tuple(setter.lines(pieces, parts, _find_breaks(parts, measure, align, indent)))


def set_words(text: str, face: Face, measure: float, align: Align = "ragged") -> tuple[Line, ...]:
    """The lines of plain words in one font."""
    return set_paragraph((Run(text),), Voices.of(face), measure, align)


@lru_cache(maxsize=8192)
def one_line(text: str, face: Face) -> Line:
    """Plain words in one font, however wide they run."""
    return set_line(((face.font, text),), face.size)


def _words(runs: Sequence[Run], voices: Voices) -> Iterator[list[Piece]]:
    """Splits at the spaces; a word may hold pieces of several fonts."""
    word: list[Piece] = []
    for run in runs:
        for index, text in enumerate(run.text.split(" ")):
            if index and word:
                yield word
                word = []
            if text:
                word.append((getattr(voices, run.voice), text))
    if word:
        yield word


def _spaced(words: Sequence[Sequence[Part]], space: float) -> list[Part]:
    """All parts in a row, a space after the last of each word."""
    return [
        Part(part.width, space if index == len(word) - 1 else 0.0, part.hyphen, part.cost)
        for word in words
        for index, part in enumerate(word)
    ]


def _find_breaks(parts: Sequence[Part], measure: float, align: Align, indent: float) -> Breaks:
    if align == "justified":
        return justified_breaks(parts, measure, indent)
    return even_breaks(parts, measure) if align == "even" else ragged_breaks(parts, measure, indent)


class _Setter:
    """Makes the parts of words, and lines of parts, for one paragraph."""

    def __init__(
        self, voices: Voices, measure: float, narrowest: float, align: Align, language: str
    ) -> None:
        self.em = voices.size
        self.measure = measure
        self.narrowest = narrowest
        self.justified = align == "justified"
        self.language = language
        self.space = font(voices.roman).width(" ") * self.em

    def parts(self, word: Sequence[Piece]) -> list[tuple[list[Piece], Part]]:
        """A word's pieces with their parts."""
        made: list[tuple[list[Piece], Part]] = [([], Part(0.0))]
        for name, text in word:
            for index, part_of in enumerate(self._bits(text)):
                part = self._part(name, *part_of)
                if index:
                    made.append(([(name, part_of[0])], part))
                else:
                    pieces, before = made[-1]
                    width = before.width + part.width
                    made[-1] = (
                        [*pieces, (name, part_of[0])],
                        Part(width, 0.0, part.hyphen, part.cost),
                    )
        return [each for whole in made for each in self._narrowed(*whole)]

    def _bits(self, text: str) -> Iterator[tuple[str, str]]:
        """Bits of a word, each with the hyphen that it takes at the end of a line."""
        compound = re.findall(r".*?[^\W\d]{2}[-–—/]+(?=[^\W\d]{2})|.+", text)
        if len(compound) > 1 or not self.justified:
            yield from ((bit, "") for bit in compound)
            return
        head = len(text) - len(text.lstrip(_MARKS))
        points = hyphen_points(text.strip(_MARKS), self.language)
        cuts = [0, *(head + point for point in points), len(text)]
        for low, high in zip(cuts, cuts[1:], strict=False):
            yield text[low:high], "-" if high < len(text) else ""

    def _part(self, name: str, bit: str, hyphen: str) -> Part:
        cost = HYPHEN_COST if hyphen else 0.0
        set_in = font(name)
        return Part(set_in.width(bit) * self.em, 0.0, set_in.width(hyphen) * self.em if hyphen else 0.0, cost)

    def _narrowed(self, pieces: list[Piece], part: Part) -> Iterator[tuple[list[Piece], Part]]:
        """The part, or where it is wider than a line, as many as it takes."""
        if part.width + part.hyphen <= self.narrowest:
            yield pieces, part
            return
        for name, text in pieces:
            for bit in _slices(name, text, self.narrowest / self.em):
                yield [(name, bit)], Part(font(name).width(bit) * self.em, cost=EMERGENCY_COST)

    def lines(
        self, pieces: Sequence[list[Piece]], parts: Sequence[Part], breaks: Breaks
    ) -> Iterator[Line]:
        """Each line with its spaces, and the hyphen where it ends in one."""
        for start, end in breaks:
            row: list[Piece] = []
            for index in range(start, end):
                row += pieces[index]
                if parts[index].space and index < end - 1:
                    row.append((row[-1][0], " "))
            if parts[end - 1].hyphen:
                row.append((row[-1][0], "-"))
            width = self.measure if self.justified and end < len(parts) else None
            if width and not start:
                width = self.narrowest
            yield set_line(_joined(row), self.em, width)


def _joined(row: Sequence[Piece]) -> list[Piece]:
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
