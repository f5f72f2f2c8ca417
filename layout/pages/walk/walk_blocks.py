"""The blocks of a walk: a diagram with its caption, and words beside it or under it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.pages.common.design import cap, stacked
from layout.pages.walk.walk_grid import CAPTION_GAP, WalkGrid, caption_depth
from layout.picture.items import Group, Item, Picture
from layout.type.lines import Line
from layout.type.markup import VoicedText
from layout.type.paragraph import one_line, set_paragraph

OVERHANG: Final = 3
"""Rows that may run on beside a diagram, below its foot, rather than under it."""

Runs = tuple[VoicedText, ...]


@dataclass(frozen=True, slots=True)
class WalkBlock:
    """A picture or none, its caption, and words set in rows beside it and under it.

    `depth` counts the rows that must stay together: those of the picture and beside it.
    """

    picture: Picture | None
    caption: str
    beside: tuple[Line, ...]
    under: tuple[Line, ...]
    depth: int
    anchor: str = ""

    def items(self, row: int, grid: WalkGrid) -> Iterator[Item]:
        """All but the words under it, its first row at a row of the page."""
        yield from stacked(self.beside, grid.voices.leading, grid.x, grid.baseline(row))
        if self.picture is not None:
            top = grid.top(row)
            yield Group(0.0, top, self.picture.items, self.picture.title)
            note = grid.design.faces.lesser_note
            below = top + self.picture.height + CAPTION_GAP * note.size + cap(note)
            yield from one_line(self.caption, note).at(0.0, below)


def words_alone(paragraphs: Sequence[Runs], grid: WalkGrid) -> WalkBlock:
    """Words without a picture."""
    lines = [line for runs in paragraphs for line in _set(runs, grid.under, grid)]
    return WalkBlock(None, "", (), tuple(lines), 0)


def block(
    picture: Picture, caption: str, paragraphs: Sequence[Runs], grid: WalkGrid, anchor: str = ""
) -> WalkBlock:
    """A picture and its words: beside it, as far as they have room there, and then under it."""
    deep = picture.height + (caption_depth(grid.design) if caption else 0.0)
    rows = grid.rows(deep)
    if grid.stacked:
        under = [line for runs in paragraphs for line in _set(runs, grid.under, grid)]
        return WalkBlock(picture, caption, (), tuple(under), rows + 1, anchor)
    beside = [line for runs in paragraphs for line in _set(runs, grid.beside, grid)]
    if len(beside) <= rows + OVERHANG:
        return WalkBlock(picture, caption, tuple(beside), (), max(rows, len(beside)), anchor)
    kept, rest = _around(paragraphs, rows + 1, grid)
    return WalkBlock(picture, caption, kept, rest, rows + 1, anchor)


def _around(
    paragraphs: Sequence[Runs], rows: int, grid: WalkGrid
) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    """So many lines beside a picture, and what is left of the words in lines under it."""
    beside: list[Line] = []
    under: list[Line] = []
    for runs in paragraphs:
        lines = _set(runs, grid.beside, grid)
        room = rows - len(beside)
        beside += lines[:room]
        if not room:
            under += _set(runs, grid.under, grid)
        elif lines[room:]:
            rest = " ".join(line.text for line in lines[room:])
            under += _set((VoicedText(rest),), grid.under, grid)
    return tuple(beside), tuple(under)


def _set(runs: Runs, measure: float, grid: WalkGrid) -> tuple[Line, ...]:
    """The lines of a paragraph; an empty one where there are no words."""
    if not runs:
        return (Line(0.0, grid.voices.size, ()),)
    return set_paragraph(runs, grid.voices, measure, language=grid.design.language)
