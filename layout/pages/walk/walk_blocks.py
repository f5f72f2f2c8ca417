"""The blocks of a walk: a diagram, and its words beside it or under it, with hanging numbers."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.pages.walk.walk_grid import HANG, ROWS_APART, WalkGrid
from layout.picture.items import Group, Item, Picture
from layout.type.face import Face
from layout.type.lines import Line
from layout.type.markup import Voice, VoicedText
from layout.type.paragraph import one_line, set_paragraph

FEW_MORE: Final = 2
"""Rows below the foot of a diagram that run on beside it rather than alone under it."""

_CELL: Final = re.compile(r"(r\d+c\d+)")


@dataclass(frozen=True, slots=True)
class Passage:
    """Words of a block, and the number that hangs beside them, or none."""

    words: str
    number: str = ""
    voice: Voice = "roman"


@dataclass(frozen=True, slots=True)
class WordRow:
    """A line of words, with the number that hangs left of it."""

    line: Line
    number: str = ""


@dataclass(frozen=True, slots=True)
class WalkBlock:
    """A picture or none, and words set in rows beside it and under it.

    `depth` counts the rows of the picture and of what stands beside it. `inset` is how far the
    picture stands from the left.
    """

    picture: Picture | None
    beside: tuple[WordRow, ...]
    under: tuple[WordRow, ...]
    depth: int
    anchor: str = ""
    inset: float = 0.0

    @property
    def rows(self) -> int:
        """All rows."""
        return self.depth + len(self.under)

    def items(self, row: int, grid: WalkGrid) -> Iterator[Item]:
        """All of it, its first row at a row of the page."""
        yield from _word_items(self.beside, row, grid.x, grid)
        if self.picture is not None:
            drawn = self.picture
            yield Group(self.inset, grid.top(row), drawn.items, drawn.title, drawn.description)
        yield from _word_items(self.under, row + self.depth, grid.hang, grid)


def _word_items(rows: Sequence[WordRow], first: int, x: float, grid: WalkGrid) -> Iterator[Item]:
    """Rows of words from a row of the page on, and their numbers."""
    voices = grid.voices
    face = Face(voices.bold, voices.size, voices.leading)
    for index, row in enumerate(rows, start=first):
        y = grid.baseline(index)
        yield from row.line.at(x, y)
        if row.number:
            number = one_line(row.number, face)
            yield from number.at(x - HANG * voices.size - number.width, y)


def words_alone(passages: Sequence[Passage], grid: WalkGrid) -> WalkBlock:
    """Words without a picture, as wide as those under one."""
    return WalkBlock(None, (), tuple(_rows(passages, grid.under, grid)), 0)


def block(
    picture: Picture, passages: Sequence[Passage], grid: WalkGrid, anchor: str = ""
) -> WalkBlock:
    """A picture and its words: beside it, or from there on under it.

    They may run on beside it below its foot as long as two such blocks have room on a page.
    """
    rows = grid.rows(picture.height)
    if grid.stacked:
        under = tuple(_rows(passages, grid.under, grid))
        inset = (grid.design.measure - picture.width) / 2
        return WalkBlock(picture, (), under, rows + ROWS_APART, anchor, inset)
    inset = grid.diagram - picture.width
    beside = tuple(_rows(passages, grid.beside, grid))
    if len(beside) <= max(rows + FEW_MORE, grid.half_page):
        return WalkBlock(picture, beside, (), max(rows, len(beside)), anchor, inset)
    kept, rest = _around(passages, rows, grid)
    return WalkBlock(picture, kept, rest, rows, anchor, inset)


def _around(
    passages: Sequence[Passage], rows: int, grid: WalkGrid
) -> tuple[tuple[WordRow, ...], tuple[WordRow, ...]]:
    """So many rows beside a picture, and what is left of the words in rows under it."""
    beside: list[WordRow] = []
    under: list[WordRow] = []
    for passage in passages:
        lines = list(_rows([passage], grid.beside, grid))
        room = rows - len(beside)
        beside += lines[:room]
        if room <= 0:
            under += _rows([passage], grid.under, grid)
        elif lines[room:]:
            rest = " ".join(row.line.text for row in lines[room:])
            under += _rows([Passage(rest, voice=passage.voice)], grid.under, grid)
    return tuple(beside), tuple(under)


def _rows(passages: Sequence[Passage], measure: float, grid: WalkGrid) -> Iterator[WordRow]:
    """The rows of passages; an empty one where there are no words."""
    for passage in passages:
        if not passage.words:
            yield WordRow(Line(0.0, grid.voices.size, ()))
            continue
        lines = set_paragraph(voiced(passage), grid.voices, measure, language=grid.design.language)
        for index, line in enumerate(lines):
            yield WordRow(line, "" if index else passage.number)


def voiced(passage: Passage) -> tuple[VoicedText, ...]:
    """The words, names of cells in bold."""
    pieces = _CELL.split(passage.words)
    return tuple(
        VoicedText(piece, "bold" if index % 2 else passage.voice)
        for index, piece in enumerate(pieces)
        if piece
    )
