"""What all pages of a book have in common: format, style and words."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial
from math import inf
from typing import Final, Literal

from layout.board.board import board_items, extent_of
from layout.board.extent import Extent
from layout.language.words import Words, fill
from layout.pages.common.format import Format
from layout.pages.common.misfit import JobPath, Misfit, Misfits
from layout.pages.common.page import Labels, Reference
from layout.picture.items import Group, Item, Link, Text
from layout.style.board import BoardStyle
from layout.style.page import Faces, PageStyle
from layout.telling.board_in_words import board_in_words
from layout.type.face import Face, Voices
from layout.type.fitting import DoesNotFit, fit_title
from layout.type.fonts import font
from layout.type.lines import Line
from layout.type.paragraph import set_words
from layout.type.prose import Column
from layout.type.typography import polish
from verify.proof.verdict import Answer
from verify.puzzle import Puzzle


@dataclass(frozen=True, slots=True)
class Design:
    """Format, style and words of a book; `language` is what hyphens go by ("en-GB")."""

    format: Format
    page: PageStyle
    board: BoardStyle
    words: Words
    language: str
    _extents: dict[int, tuple[Puzzle, Extent]] = field(
        default_factory=dict, init=False, compare=False, repr=False
    )

    @property
    def faces(self) -> Faces:
        """The faces of the style sheet."""
        return self.page.faces

    @property
    def measure(self) -> float:
        """The width of the text area."""
        return self.format.measure

    @property
    def depth(self) -> float:
        """The height of the text area."""
        return self.format.depth

    def extent(self, puzzle: Puzzle) -> Extent:
        """How many cells wide and deep its board is; asked for again and again, and kept."""
        # Puzzles are told apart as objects: to compare them takes longer than to look.
        if id(puzzle) not in self._extents:
            self._extents[id(puzzle)] = puzzle, extent_of(puzzle, self.board)
        return self._extents[id(puzzle)][1]

    def board_width(
        self, puzzle: Puzzle, width: float, height: float, largest: float = inf
    ) -> float:
        """How wide a board is drawn in so much room, its cells no larger than that."""
        extent = self.extent(puzzle)
        return min(extent.within(width, height), extent.across * largest)

    def board_height(self, puzzle: Puzzle, width: float) -> float:
        """How high a board that wide is."""
        return self.extent(puzzle).height(width)

    def cell(self, puzzle: Puzzle, width: float, height: float) -> float:
        """The side of a cell, with its share of the frame, in so much room.

        To a nanometre, so that a bound that is just met counts as met.
        """
        across = self.extent(puzzle).across
        return round(self.board_width(puzzle, width, height) / across, 6)

    def room_for(self, puzzle: Puzzle, cell: float) -> float:
        """The side of a square in which the board has cells that large."""
        extent = self.extent(puzzle)
        return cell * max(extent.across, extent.down)

    def prose(self) -> Column:
        """The column of introductions and of what is taught."""
        return Column(
            self.faces.prose,
            min(self.measure, self.page.measure),
            "justified" if self.page.justified else "ragged",
            self.language,
            self.page.least,
        )


def cap(face: Face | Voices) -> float:
    """The height of a capital in a face, in millimetres."""
    name = face.font if isinstance(face, Face) else face.roman
    return font(name).cap_height * face.size


def stacked(
    lines: Sequence[Line], leading: float, x: float, y: float, grey: float = 0.0
) -> Iterator[Text]:
    """Lines under one another, the first on the baseline `y`."""
    for index, line in enumerate(lines):
        yield from line.at(x, y + index * leading, grey)


def fit(
    text: str, face: Face, design: Design, most_lines: int, path: JobPath = ()
) -> tuple[tuple[Line, ...], Face]:
    """The lines of a title as wide as the text area; none where there are no words.

    Raises Misfits, at the job's `path`, where it is too long even when small.
    """
    text = polish(text, design.words.quote_marks)
    if not text:
        return (), face
    try:
        return fit_title(text, face, design.measure, design.page.least, most_lines)
    except DoesNotFit:
        message = f"the {path[-1] if path else 'title'} is too long for its place on the page"
        raise Misfits([Misfit(message, path)]) from None


LONGEST_LABEL: Final = "0000"
"""A page number as wide as any."""


def reference_lines(sentence: str, label: str, face: Face, measure: float) -> tuple[Line, ...]:
    """A sentence that names a page, on as many lines as the measure makes of it."""
    return set_words(fill(sentence, page=label), face, measure)


def refer(
    reference: Reference,
    labels: Labels,
    face: Face,
    x: float,
    y: float,
    measure: float,
    *,
    flush_right: bool = False,
) -> Iterator[Item]:
    """A sentence that names a page, and the link over it; `x` is its left end or its right."""
    label = labels.get(reference.anchor, "")
    for line in reference_lines(reference.sentence, label, face, measure):
        left = x - line.width if flush_right else x
        yield from line.at(left, y)
        yield link_over(line, left, y, reference.anchor)
        y += face.leading


def link_over(line: Line, x: float, y: float, anchor: str) -> Link:
    """A link as large as a line on the baseline `y`."""
    return Link(x, y - 0.8 * line.size, line.width, 1.1 * line.size, anchor)


def board_at(
    puzzle: Puzzle,
    x: float,
    y: float,
    width: float,
    design: Design,
    answer: Answer | None = None,
    *,
    labels: bool = False,
) -> Group:
    """The board, so wide, its upper left corner at a point; an answer with `labels` or without."""
    items = board_items(puzzle, design.board, width, answer, labels=labels)
    return Group(x, y, items, puzzle.title, partial(_in_words, puzzle, design.words, answer))


def _in_words(puzzle: Puzzle, words: Words, answer: Answer | None) -> str:
    return " ".join(board_in_words(puzzle, words, answer))


def heading(items: Iterable[Item], level: Literal["H1", "H2"] = "H2") -> Group:
    """Lines that are a heading: of a part of the book, or of something in it."""
    return Group(0.0, 0.0, tuple(items), role=level)
