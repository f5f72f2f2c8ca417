"""The grid that a walk is set on: a column of diagrams, and words beside or under them."""

from dataclasses import dataclass
from math import ceil
from typing import Final

from layout.board.extent import Extent
from layout.board.step import least_step_side, step_extent, step_lattice
from layout.pages.common.design import Design, cap
from layout.pages.common.misfit import Misfit, Misfits
from layout.pages.common.prose_pages import rows_in
from layout.type.face import Voices
from verify.puzzle import Puzzle

LEAST_BOARD: Final = 60.0
"""No grid is narrower where the page has room, whatever the largest cells are."""

BOARD_SHARE: Final = 0.52
"""The share of the page's measure that a diagram takes with words beside it."""

LEAST_EMS: Final = 12.0
"""The narrowest column of words beside a diagram, in ems of the smaller letters."""

COLUMN_EMS: Final = 19.0
"""A column that is narrower takes the smaller letters."""

GAP_ROWS: Final = 2
"""Rows between a diagram with its words and the next."""

LARGE: Final = 1.1
"""Where words stand under diagrams, cells are no larger than so many times the least."""

ROWS_APART: Final = 1
"""Rows between a diagram and the words under it, where all of them stand there."""

MOST_STACKED: Final = 0.62
"""The most of the depth that a diagram takes where its words stand under it."""

HANG: Final = 0.6
"""White between a hanging number and its words, in ems."""

NUMBER: Final = 1.8
"""Room for a hanging number and that white, where all words stand under diagrams, in ems."""


@dataclass(frozen=True, slots=True)
class WalkGrid:
    """Measures in millimetres: how wide diagrams are, and where the words stand.

    Words are `voices` and stand on rows of their leading. Beside a diagram they start at `x` and
    run over `beside`; where `stacked` all of them stand under it. Words under a diagram start at
    `hang` and run over `under`. Numbers hang left of the words.
    """

    design: Design
    diagram: float
    extent: Extent
    stacked: bool
    voices: Voices
    x: float
    beside: float
    hang: float
    under: float

    @property
    def capacity(self) -> int:
        """The rows of a page."""
        return rows_in(self.design.depth, self.voices)

    @property
    def half_page(self) -> int:
        """The rows of one of two blocks on a page."""
        return (self.capacity - GAP_ROWS) // 2

    def rows(self, depth: float) -> int:
        """The rows that something takes that hangs from the top of a first row."""
        return max(ceil((depth - cap(self.voices)) / self.voices.leading - 1e-9) + 1, 1)

    def top(self, row: int) -> float:
        """Where a capital of a row has its top."""
        return row * self.voices.leading

    def baseline(self, row: int) -> float:
        """The baseline of a row; 0 is the topmost."""
        return cap(self.voices) + row * self.voices.leading


def walk_grid(puzzle: Puzzle, design: Design, *, every_mark: bool = False) -> WalkGrid:
    """Words beside diagrams where both come out large enough, or under them.

    With `every_mark` cells are large enough for all pencil marks. Raises Misfits where cells are
    too small to read even as wide as the page.
    """
    needed = least_step_side(puzzle, design.board, every_mark=every_mark)
    smallest = max(design.page.cells.smallest_in_steps, needed)
    extent = step_extent(puzzle, design.board)
    width = _width_beside(puzzle, extent, smallest, design)
    if width is None:
        return _stacked(puzzle, extent, smallest, design, every_mark=every_mark)
    x = width + design.page.gap
    beside = design.measure - x
    voices = _voices(beside, design)
    # Words that run on under a diagram begin below the grid's own left edge.
    hang = step_lattice(puzzle, design.board, width).left
    under = min(design.measure - hang, design.page.measure)
    return WalkGrid(design, width, extent, False, voices, x, beside, hang, under)


def _width_beside(puzzle: Puzzle, extent: Extent, smallest: float, design: Design) -> float | None:
    """How wide diagrams with words beside them are; None where one of both has too little room."""
    lesser = design.faces.lesser_rules
    largest = max(design.page.cells.largest_in_steps, smallest)
    at_best = _width(extent, max(smallest, LEAST_BOARD / puzzle.board.columns))
    wanted = max(min(BOARD_SHARE * design.measure, _width(extent, largest)), at_best)
    room = design.measure - design.page.gap - LEAST_EMS * lesser.size
    width = extent.within(min(wanted, room), _depth_of_two(design, lesser))
    # With clues around it a board may be so wide where its grid alone has no room to be.
    outskirts = step_lattice(puzzle, design.board, width).outskirts
    has_clues = outskirts.across or outskirts.down
    least = max(_width(extent, smallest), LEAST_BOARD) if has_clues else at_best
    return width if width >= min(least, wanted) - 1e-6 else None


def _stacked(
    puzzle: Puzzle, extent: Extent, smallest: float, design: Design, *, every_mark: bool
) -> WalkGrid:
    """Words under diagrams."""
    voices = _voices(design.measure, design)
    largest = max(design.page.cells.largest_in_steps, smallest)
    side = max(smallest, LEAST_BOARD / puzzle.board.columns)
    wanted = min(design.measure, _width(extent, max(side, min(largest, LARGE * smallest))))
    deep = max(MOST_STACKED * design.depth, extent.height(_width(extent, side)))
    width = extent.within(wanted, deep)
    _check(puzzle, extent.side(width), smallest if every_mark else 0.0, design)
    hang = NUMBER * voices.size
    under = min(design.measure - hang, design.page.measure)
    return WalkGrid(design, width, extent, True, voices, 0.0, 0.0, hang, under)


def _check(puzzle: Puzzle, side: float, least: float, design: Design) -> None:
    """Raises Misfits where cells are smaller than that, or than in answers."""
    least = max(least, design.page.cells.smallest_in_answers)
    if side < least - 1e-6:
        message = (
            f"a walk's diagrams get cells of {side:.1f} mm; the style wants {least:.3g} or more"
        )
        raise Misfits([Misfit(message, puzzle=puzzle, field="size")])


def _width(extent: Extent, side: float) -> float:
    """How wide a picture is whose cells have that side."""
    return extent.across * side + extent.frame.at(side)


def _voices(width: float, design: Design) -> Voices:
    """The letters of a puzzle's rule text, where a column of them is wide enough."""
    faces = design.faces
    wide = width >= COLUMN_EMS * faces.rules.size
    return faces.rules if wide else faces.lesser_rules


def _depth_of_two(design: Design, voices: Voices) -> float:
    """How deep a diagram may be for two to stand on a page."""
    rows = (rows_in(design.depth, voices) - GAP_ROWS) // 2
    return (rows - 1) * voices.leading + cap(voices)
