"""Grids side by side: each with its number and title above it, and what is said of it below.

Pages of several puzzles and pages of answers are made of them.
"""

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from typing import Final

from layout.pages.common.book import Numbered
from layout.pages.common.caption import Fitted, fitted_credit, fitted_title, rule_lines
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
from layout.pages.common.misfit import Misfits, gathered
from layout.pages.common.page import Labels, Reference
from layout.picture.items import Item
from layout.type.face import Face, Voices
from layout.type.fitting import widest
from layout.type.lines import Line
from layout.type.paragraph import one_line

NUMBER_GAP: Final = 0.55
"""White between number and title, in ems of the title."""

ABOVE_GRID: Final = 0.56
BELOW_GRID: Final = 0.75
"""White over the grid, in ems of the title, and under it, in ems of the note."""

_EPSILON: Final = 1e-6


@dataclass(frozen=True, slots=True)
class SmallBoardLook:
    """How small boards are lettered: faces of the words, and whether constructors are named.

    `answers` fills the grids in, and says nothing of grades; `largest` bounds a cell; `tight`
    rather shrinks titles than gives them a second line, and shows grades by their marks alone.
    """

    number: Face
    title: Face
    credit: Face | None
    rules: Voices
    note: Face
    sentence: str
    answers: bool
    largest: float
    tight: bool = False

    def reference(self, numbered: Numbered) -> Reference:
        """To the answer, or from the answer to the puzzle."""
        anchor = numbered.puzzle_anchor if self.answers else numbered.answer_anchor
        return Reference(self.sentence, anchor)


@dataclass(frozen=True, slots=True)
class SmallBoard:
    """A puzzle or an answer with its words, set for a width.

    `reference` is the line with the other's page, as long as it can come out.
    """

    numbered: Numbered
    number: Line
    title: Fitted
    gauge: Gauge | None
    credit: Fitted
    rules: tuple[Line, ...]
    reference: tuple[Line, ...]
    width: float

    def above(self, look: SmallBoardLook) -> float:
        """What the words over the grid take."""
        return cap(self.title.face) + self.title.drop + ABOVE_GRID * look.title.size

    def below(self, look: SmallBoardLook, apart: bool) -> float:
        """What the words under the grid take, with the reference on a line of its own or not."""
        lines = len(self.rules) * look.rules.leading + self.credit.drop
        under = len(self.reference) - (0 if apart and self.credit.lines else 1)
        return BELOW_GRID * look.note.size + cap(look.note) + lines + under * look.note.leading

    def is_apart(self, look: SmallBoardLook) -> bool:
        """Whether the constructor leaves no room for the reference on the same line."""
        taken = widest(self.credit.lines) + look.note.size + widest(self.reference)
        lines = max(len(self.reference), len(self.credit.lines))
        return lines > 1 or taken > self.width + _EPSILON


Chunk = Sequence[tuple[Numbered, Sequence[str]]]
"""The puzzles of one page, each with the sentences that stand under it."""


def set_boards(
    chunk: Chunk, width: float, look: SmallBoardLook, design: Design
) -> list[SmallBoard]:
    """The words of a page's boards. Raises Misfits where they are too long for the width."""
    return gathered(
        partial(_set_board, numbered, sentences, width, look, design)
        for numbered, sentences in chunk
    )


def _set_board(
    numbered: Numbered, sentences: Sequence[str], width: float, look: SmallBoardLook, design: Design
) -> SmallBoard:
    number = one_line(str(numbered.number), look.number)
    graded = None if look.answers else _gauge(numbered, look, design)
    taken = graded.width + NUMBER_GAP * look.title.size if graded else 0.0
    beside = width - number.width - NUMBER_GAP * look.title.size - taken
    title = fitted_title(numbered.puzzle, look.title, beside, design, tight=look.tight)
    reference = reference_lines(look.sentence, LONGEST_LABEL, look.note, width)
    credit = _set_credit(numbered, width, widest(reference), look, design)
    rules = rule_lines(sentences, look.rules, width, design)
    return SmallBoard(numbered, number, title, graded, credit, rules, reference, width)


def _gauge(numbered: Numbered, look: SmallBoardLook, design: Design) -> Gauge | None:
    """The grade; in a tight look its marks alone."""
    return gauge(numbered.grade, design.words.grades, look.note, marks_only=look.tight)


def _set_credit(
    numbered: Numbered, width: float, reference: float, look: SmallBoardLook, design: Design
) -> Fitted:
    """The constructor's name; in a tight look small enough to stand beside the reference."""
    if look.credit is None:
        return Fitted((), look.note)
    if look.tight:
        beside = width - reference - look.note.size
        with suppress(Misfits):
            return fitted_credit(numbered.puzzle, look.credit, beside, design, one_line=True)
    return fitted_credit(numbered.puzzle, look.credit, width, design)


@dataclass(frozen=True, slots=True)
class BoardPlace:
    """Where a small board stands: `x` and `y` are the upper left corner of its grid.

    `side` bounds the grid's width and height. All are millimetres. With `apart` the constructor and
    the reference have a line each.
    """

    x: float
    y: float
    side: float
    apart: bool


def board_items(
    board: SmallBoard, place: BoardPlace, look: SmallBoardLook, design: Design, labels: Labels
) -> Iterator[Item]:
    """A small board in its place."""
    numbered, side = board.numbered, place.side
    yield from _heading(board, place.x, place.y, look)
    width = design.board_width(numbered.puzzle, side, side, look.largest)
    height = design.board_height(numbered.puzzle, width)
    answer = (numbered.answer or None) if look.answers else None
    yield board_at(numbered.puzzle, place.x, place.y, width, design, answer)
    yield from _under(board, place, height, look, labels)


def _heading(board: SmallBoard, x: float, y: float, look: SmallBoardLook) -> Iterator[Item]:
    """Number and title, a little above the grid."""
    title = board.title
    first = y - ABOVE_GRID * look.title.size - title.drop
    yield from board.number.at(x, first)
    indent = board.number.width + NUMBER_GAP * look.title.size
    yield heading(stacked(title.lines, title.face.leading, x + indent, first))
    if board.gauge:
        yield from board.gauge.at(x + board.width - board.gauge.width, first)


def _under(
    board: SmallBoard, place: BoardPlace, height: float, look: SmallBoardLook, labels: Labels
) -> Iterator[Item]:
    """Rule text, constructor and reference, under a grid that is so high."""
    x, y = place.x, place.y + height + BELOW_GRID * look.note.size
    yield from stacked(board.rules, look.rules.leading, x, y + cap(look.rules))
    y += len(board.rules) * look.rules.leading + cap(look.note)
    credit, reference = board.credit, look.reference(board.numbered)
    yield from stacked(credit.lines, credit.face.leading, x, y)
    y += credit.drop + (look.note.leading if place.apart and credit.lines else 0.0)
    beside = bool(credit.lines) and not place.apart
    left = x + board.width if beside else x
    yield from refer(reference, labels, look.note, left, y, board.width, flush_right=beside)
