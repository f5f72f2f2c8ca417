"""How to solve: a lesson for each rule that the book uses, with a small worked example.

A lesson takes a page, or shares one with others where the job says so and they have room.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.book.example import Example
from layout.pages.book.lessons import Lesson, lessons
from layout.pages.common.book import Book
from layout.pages.common.design import Design, cap, fit, heading, stacked
from layout.pages.common.page import Labels, Page
from layout.pages.common.prose_pages import (
    MOST_TITLE_LINES,
    OPENING,
    chapter_title,
    row_items,
    rows_below,
    rows_in,
)
from layout.picture.items import Anchor, Item
from layout.type.markup import read_markup
from layout.type.prose import ProseRow, cut_pages

ANCHOR: Final = "how-to-solve"

UNDER_PART: Final = 1.8
"""White between the title of the part and the first heading, in leadings of this."""

UNDER_HEADING: Final = 1.3
"""White between a heading and the words under it, in leadings of these."""

APART: Final = 1.3
"""From the foot of a lesson to the heading of the next, in leadings of this."""

ABOVE_EXAMPLE: Final = 0.9
"""White between the words and the example, in gaps."""

WORTH_IT: Final = 0.8
"""The share of the pages that smaller examples must make do with."""

SHARED: Final = 6.0
"""The side of an example on a shared page, in cells of one of the style's sizes."""

MOST_TOGETHER: Final = {"one": 1, "two-up": 2}
"""Lessons on a page, where the job bounds them."""


def teaching_part(book: Book, design: Design) -> BookPart | None:
    """The lessons of a book; None where it uses no rule, or wants none."""
    taught = lessons(book, design.words) if book.lessons != "none" else ()
    if not taught:
        return None
    part = ContentsEntry(design.words.pages.how_to_solve, ANCHOR)
    entries = (ContentsEntry(lesson.title, lesson.anchor, level=1) for lesson in taught)
    most = MOST_TOGETHER.get(book.lessons, len(taught))
    return BookPart(lambda _: _teaching_pages(taught, most, design), (part, *entries))


@dataclass(frozen=True, slots=True)
class _Sharing:
    """How many lessons share a page, and the most that an example's grids take, in millimetres."""

    most: int
    side: float


@dataclass(frozen=True, slots=True)
class _Body:
    """What a page has of a lesson: its heading or none, and rows of words from `first` on.

    The example stands under them where it is `shown`, no larger than a `side`, and ends above
    `limit`. The lesson begins `begins` from the top of the page, if it does there.
    """

    lesson: Lesson
    heading: tuple[Item, ...]
    rows: tuple[ProseRow, ...]
    first: int
    side: float
    limit: float
    begins: float | None
    shown: bool = False

    def example_top(self, design: Design) -> float:
        """Where an example below the rows begins."""
        voices, used = design.faces.prose, self.first + len(self.rows)
        white = ABOVE_EXAMPLE * design.page.gap if self.rows else 0.0
        return cap(voices) + (used - 1) * voices.leading + white if used else 0.0

    def foot(self, design: Design) -> float:
        """Where it ends."""
        return self.example_top(design) + self._example(design).depth(self.width(design))

    def width(self, design: Design) -> float:
        """How wide the example's grids are; nothing where they came out too small."""
        return self._example(design).width(self.limit - self.example_top(design))

    def items(self, design: Design) -> Iterator[Item]:
        """All that stands in it."""
        yield from self.heading
        yield from row_items(self.rows, self.first, design.faces.prose)
        if self.shown:
            yield from self._example(design).items(self.example_top(design), self.width(design))

    def _example(self, design: Design) -> Example:
        return Example(self.lesson, self.side, design)


def _teaching_pages(taught: Sequence[Lesson], most: int, design: Design) -> tuple[Page, ...]:
    """The pages of all lessons, up to so many on each; the first of them opens the part.

    Where they share pages, examples are large, unless small ones need many fewer pages.
    """
    title, below = _part_title(design)
    cells = design.page.cells
    sides = [SHARED * cell for cell in (cells.largest_in_answers, cells.smallest)]
    ways = [_Sharing(most, side) for side in sides] if most > 1 else [_Sharing(1, design.depth)]
    large, *small = (_shared(taught, below, way, design) for way in ways)
    pages = next((each for each in small if len(each) < WORTH_IT * len(large)), large)
    part = design.words.pages.how_to_solve
    return tuple(
        Page(
            partial(_draw, () if index else title, page, design),
            anchors=(*([] if index else [Anchor(ANCHOR, 0.0)]), *_anchors(page)),
            head=part if index else "",
        )
        for index, page in enumerate(pages)
    )


def _shared(
    taught: Sequence[Lesson], below: float, way: _Sharing, design: Design
) -> list[list[_Body]]:
    """The lessons by page, the first heading on a baseline."""
    face = design.faces.heading
    whole = design.depth
    half = (whole - APART * face.leading) / 2 if way.most == 2 else whole
    top = cap(face) if way.most > 1 else OPENING * whole
    pages: list[list[_Body]] = []
    for lesson in taught:
        if pages and len(pages[-1]) < way.most and pages[-1][-1].shown:
            under = max(_under(pages[-1][-1], design), whole - half + cap(face))
            bodies = _bodies(lesson, under, whole, way, design)
            if len(bodies) == 1:
                pages[-1] += bodies
                continue
        y = top if pages else below
        bodies = _bodies(lesson, y, half, way, design)
        if len(bodies) > 1:
            bodies = _bodies(lesson, y, whole, way, design)
        pages += ([body] for body in bodies)
    return [[_alone(page[0], design)] if len(page) == 1 else page for page in pages]


def _alone(body: _Body, design: Design) -> _Body:
    """What has a page for itself, its example as large as the page holds."""
    if not body.shown:
        return body
    large = replace(body, side=design.depth, limit=design.depth)
    return large if large.width(design) > body.width(design) else body


def _part_title(design: Design) -> tuple[tuple[Item, ...], float]:
    """The title of the part, and the baseline of the heading under it."""
    items, y = chapter_title(design.words.pages.how_to_solve, design)
    return tuple(items), y + UNDER_PART * design.faces.heading.leading


def _under(body: _Body, design: Design) -> float:
    """The baseline of the next heading under a lesson."""
    return body.foot(design) + APART * design.faces.heading.leading


def _bodies(
    lesson: Lesson, y: float, limit: float, way: _Sharing, design: Design
) -> tuple[_Body, ...]:
    """A lesson from a baseline on: its words, and its example, overleaf where it has no room."""
    voices = design.faces.prose
    rows = design.prose().rows(read_markup(lesson.teach, design.words.quote_marks))
    lines, face = fit(lesson.title, design.faces.heading, design, MOST_TITLE_LINES)
    title = (heading(stacked(lines, face.leading, 0.0, y)),)
    above = rows_below(y + (len(lines) - 1) * face.leading, voices, UNDER_HEADING)
    room = rows_in(design.depth, voices)
    first, *others = cut_pages(rows, room, max(room - above, 0))
    begins = max(y - design.faces.heading.leading, 0.0)
    bodies = [
        _Body(lesson, title, first, above, way.side, limit, begins),
        *(_Body(lesson, (), page, 0, way.side, limit, None) for page in others),
    ]
    if not bodies[-1].width(design):
        bodies.append(_Body(lesson, (), (), 0, way.side, limit, None))
    return (*bodies[:-1], replace(bodies[-1], shown=True))


def _anchors(page: Sequence[_Body]) -> Iterator[Anchor]:
    for body in page:
        if body.begins is not None:
            yield Anchor(body.lesson.anchor, body.begins)


def _draw(
    title: Sequence[Item], page: Sequence[_Body], design: Design, labels: Labels
) -> Iterator[Item]:
    yield from title
    for body in page:
        yield from body.items(design)
