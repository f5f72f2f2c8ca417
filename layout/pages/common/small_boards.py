"""Grids side by side: each with its number and title above it, and its constructor below.

Pages of several puzzles and pages of answers are made of them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from layout.language.words import fill
from layout.pages.common.book import Numbered
from layout.pages.common.caption import Fitted, fitted_credit, fitted_titles
from layout.pages.common.coordinates import coordinate_depth, coordinates
from layout.pages.common.design import (
    LONGEST_LABEL,
    Design,
    board_at,
    cap,
    heading,
    refer,
    reference_lines,
    stacked,
)
from layout.pages.common.gauge import Gauge, gauge
from layout.pages.common.misfit import gathered
from layout.pages.common.page import Labels, Reference
from layout.picture.items import Item
from layout.type.face import Face
from layout.type.lines import Line
from layout.type.paragraph import one_line

NUMBER_GAP: Final = 0.55
"""White between number and title, and between the title and what follows it, in its ems."""

ABOVE_GRID: Final = 0.56
BELOW_GRID: Final = 0.75
"""White over the grid, in ems of the title, and under it, in ems of the note."""


@dataclass(frozen=True, slots=True)
class SmallBoardLook:
    """How small boards are lettered: faces of the words, and whether constructors are named.

    Answers fill the grids in and say nothing of grades: at the end of a title's line `sentence`
    names the puzzle's page, or under the grid where it is `apart`. It is empty for puzzles.
    `largest` bounds a cell; `tight` rather shrinks titles than gives them a second line, and
    shows grades by their marks alone.
    """

    number: Face
    title: Face
    credit: Face | None
    note: Face
    sentence: str
    largest: float
    tight: bool = False
    apart: bool = False

    @property
    def answers(self) -> bool:
        """Whether the grids are filled in."""
        return bool(self.sentence)

    def white(self, design: Design) -> float:
        """From the title to the grid; the numbers of columns have room there."""
        return ABOVE_GRID * self.title.size + (0.0 if self.answers else coordinate_depth(design))


@dataclass(frozen=True, slots=True)
class SmallBoard:
    """A puzzle or an answer with its words, set for a width.

    The puzzle's page takes so many lines `under` the grid.
    """

    numbered: Numbered
    number: Line
    title: Fitted
    gauge: Gauge | None
    credit: Fitted
    width: float
    under: int = 0

    @property
    def parts_a_word(self) -> bool:
        """Whether a word of the title goes on in the next line."""
        set_so = " ".join(line.text for line in self.title.lines)
        return len(set_so.split()) > len(self.numbered.puzzle.title.split())

    def above(self, look: SmallBoardLook, design: Design) -> float:
        """What the words over the grid take."""
        return cap(self.title.face) + self.title.drop + look.white(design)

    def below(self, look: SmallBoardLook) -> float:
        """What the words under the grid take."""
        white, note = BELOW_GRID * look.note.size, look.note
        if self.under:
            return white + cap(note) + (self.under - 1) * note.leading
        return white + cap(self.credit.face) + self.credit.drop if self.credit.lines else 0.0


def set_boards(
    puzzles: Sequence[Numbered], width: float, look: SmallBoardLook, design: Design
) -> list[SmallBoard]:
    """The words of boards, so wide, all titles in one size. Raises Misfits for words too long."""
    gauges = [_gauge(each, look, design) for each in puzzles]
    numbers = [one_line(str(each.number), look.number) for each in puzzles]
    gap = NUMBER_GAP * look.title.size
    reference = reference_lines(look.sentence, LONGEST_LABEL, look.note, width)
    page = 0.0 if look.apart else one_line(fill(look.sentence, page=LONGEST_LABEL), look.note).width
    taken = [each.width if each else page for each in gauges]
    titles = fitted_titles(
        [each.puzzle for each in puzzles],
        look.title,
        [
            width - number.width - gap - (wide + gap if wide else 0.0)
            for number, wide in zip(numbers, taken, strict=True)
        ],
        design,
        tight=look.tight,
    )
    credits_ = gathered(partial(_set_credit, each, width, look, design) for each in puzzles)
    return [
        SmallBoard(
            numbered, number, title, graded, credit, width, len(reference) if look.apart else 0
        )
        for numbered, number, title, graded, credit in zip(
            puzzles, numbers, titles, gauges, credits_, strict=True
        )
    ]


def _gauge(numbered: Numbered, look: SmallBoardLook, design: Design) -> Gauge | None:
    """The grade; in a tight look its marks alone."""
    if look.answers:
        return None
    return gauge(numbered.grade, design.words.grades, look.note, marks_only=look.tight)


def _set_credit(numbered: Numbered, width: float, look: SmallBoardLook, design: Design) -> Fitted:
    """The constructor's name, where it is told."""
    if look.credit is None:
        return Fitted((), look.note)
    return fitted_credit(numbered.puzzle, look.credit, width, design)


@dataclass(frozen=True, slots=True)
class BoardPlace:
    """Where a small board stands: `x` and `y` are the upper left corner of its grid.

    `side` bounds the grid's width and height. All are millimetres.
    """

    x: float
    y: float
    side: float


def board_items(
    board: SmallBoard, place: BoardPlace, look: SmallBoardLook, design: Design, labels: Labels
) -> Iterator[Item]:
    """A small board in its place."""
    numbered, side = board.numbered, place.side
    yield from _heading(board, place, look, design, labels)
    width = design.board_width(numbered.puzzle, side, side, look.largest)
    answer = (numbered.answer or None) if look.answers else None
    yield board_at(numbered.puzzle, place.x, place.y, width, design, answer)
    if not look.answers:
        yield from coordinates(numbered.puzzle, place.x, place.y, width, design)
    y = place.y + design.board_height(numbered.puzzle, width) + BELOW_GRID * look.note.size
    if look.apart:
        page = Reference(look.sentence, numbered.puzzle_anchor)
        yield from refer(page, labels, look.note, place.x, y + cap(look.note), board.width)
    credit = board.credit
    yield from stacked(credit.lines, credit.face.leading, place.x, y + cap(credit.face))


def _heading(
    board: SmallBoard, place: BoardPlace, look: SmallBoardLook, design: Design, labels: Labels
) -> Iterator[Item]:
    """Number and title, a little above the grid, and at the end the grade or the puzzle's page."""
    title = board.title
    first = place.y - look.white(design) - title.drop
    yield from board.number.at(place.x, first)
    indent = board.number.width + NUMBER_GAP * look.title.size
    yield heading(stacked(title.lines, title.face.leading, place.x + indent, first))
    right = place.x + board.width
    if board.gauge:
        yield from board.gauge.at(right - board.gauge.width, first)
    if look.answers and not look.apart:
        page = Reference(look.sentence, board.numbered.puzzle_anchor)
        yield from refer(page, labels, look.note, right, first, board.width, flush_right=True)
