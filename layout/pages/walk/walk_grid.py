"""The grid that a walk is set on: a column of diagrams, and words beside or under them."""

from dataclasses import dataclass
from math import ceil
from typing import Final

from layout.pages.common.design import Design, cap
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.common.prose_pages import rows_in
from layout.type.face import Voices
from verify.puzzle import Puzzle

GAP_ROWS: Final = 2
"""Rows between a diagram with its words and the next."""

COLUMN_EMS: Final = 20
"""A column that is narrower takes the smaller letters."""

MOST_STACKED: Final = 0.72
"""The most of the depth that a diagram takes where its words stand under it."""

CAPTION_GAP: Final = 0.75
"""White between a diagram and its caption, in ems of the caption."""


@dataclass(frozen=True, slots=True)
class WalkGrid:
    """Measures in millimetres: how wide diagrams are, and where the words beside them stand.

    Words are `voices` and stand on rows of their leading. They start at `x` and run over
    `beside`; where `stacked` all of them stand under the diagram and run over `under`, as do
    those that are too long for their place beside it.
    """

    design: Design
    diagram: float
    stacked: bool
    voices: Voices
    x: float
    beside: float
    under: float

    @property
    def capacity(self) -> int:
        """The rows of a page."""
        return rows_in(self.design.depth, self.voices)

    def rows(self, depth: float) -> int:
        """The rows that something takes that hangs from the top of a first row."""
        return max(ceil((depth - cap(self.voices)) / self.voices.leading - 1e-9) + 1, 1)

    def top(self, row: int) -> float:
        """Where a capital of a row has its top."""
        return row * self.voices.leading

    def baseline(self, row: int) -> float:
        """The baseline of a row; 0 is the topmost."""
        return cap(self.voices) + row * self.voices.leading


def walk_grid(puzzle: Puzzle, design: Design) -> WalkGrid:
    """Two columns where cells come out large enough, or one.

    Raises Misfits where cells are too small to read even as wide as the page.
    """
    gap, cells = design.page.gap, design.page.cells
    half = (design.measure - gap) / 2
    voices = _voices(half, design)
    room = _room_for_several(half, voices, design)
    width = design.board_width(puzzle, min(half, room), room, cells.largest_in_steps)
    if design.cell(puzzle, min(half, room), room) >= cells.smallest_in_steps:
        x = max(width, min(half, room)) + gap
        return WalkGrid(design, width, False, voices, x, design.measure - x, design.measure)
    deep = MOST_STACKED * design.depth
    width = design.board_width(puzzle, design.measure, deep, cells.largest_in_steps)
    _check(puzzle, design.cell(puzzle, design.measure, deep), design)
    under = min(design.measure, design.page.measure)
    return WalkGrid(design, width, True, design.faces.rules, 0.0, under, under)


def _voices(width: float, design: Design) -> Voices:
    """The letters of a puzzle's rule text, where a column of them is wide enough."""
    faces = design.faces
    wide = width >= COLUMN_EMS * faces.rules.size
    return faces.rules if wide else faces.lesser_rules


def caption_depth(design: Design) -> float:
    """What a caption takes under its diagram."""
    note = design.faces.lesser_note
    return CAPTION_GAP * note.size + cap(note)


def _room_for_several(half: float, voices: Voices, design: Design) -> float:
    """How deep a diagram may be for two or more to fill the page, about as wide as a column."""
    total, leading = rows_in(design.depth, voices), voices.leading
    wanted = ceil((half + caption_depth(design)) / leading) + GAP_ROWS
    count = max(2, round((total + GAP_ROWS) / wanted))
    rows = (total - (count - 1) * GAP_ROWS) // count
    return (rows - 1) * leading + cap(voices) - caption_depth(design)


def _check(puzzle: Puzzle, cell: float, design: Design) -> None:
    least = design.page.cells.smallest_in_answers
    if cell < least:
        message = f"a walk's diagrams get cells of {cell:.1f} mm; the style wants {least:g} or more"
        raise Misfits([Misfit(message, puzzle=puzzle, field="size")])
