"""From a book to its leaves: set the parts, arrange their pages, finish each page.

Page numbers, mirrored margins and blanks come in the last two stages only. What depends on
page numbers (the index, the inside margin) is set again until the numbers stay the same.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from layout.language.words import Words
from layout.pages.book.book_part import BookPart
from layout.pages.book.book_parts import book_parts
from layout.pages.book.hints import hinted
from layout.pages.common.book import Book
from layout.pages.common.design import Design
from layout.pages.common.format import Trim, page_format
from layout.pages.common.furniture import furniture
from layout.pages.common.misfit import gathered
from layout.pages.common.page import BLANK, Labels, Page, PartPages
from layout.picture.document import Document, DrawnLater, Info, Leaf, OutlineEntry
from layout.picture.ink import headings_in_ink
from layout.picture.items import Anchor, Group, Item
from layout.style.style import Style
from layout.type.roman import roman
from layout.type.typography import polish

MOST_PASSES: Final = 8
"""Rounds after which page numbers must have settled."""


@dataclass(frozen=True, slots=True)
class PlacedPage:
    """A page with its place in the book: which side, and its label."""

    page: Page
    recto: bool
    label: str


@dataclass(frozen=True, slots=True)
class Paginated:
    """The finished leaves, and the label of the page of every anchor."""

    document: Document
    labels: Labels


@dataclass(frozen=True, slots=True)
class _Settled:
    """A book whose page numbers and format no longer change."""

    design: Design
    parts: tuple[BookPart, ...]
    placed: Sequence[PlacedPage]
    labels: Labels


def paginate(book: Book, style: Style, words: Words, language: str, trim: Trim) -> Paginated:
    """Sets a whole book. Raises Misfits with everything that does not fit its place."""
    settled = _settle(book, style, words, language, trim)
    title = polish(book.title, words.quote_marks)
    author = polish(book.author, words.quote_marks)
    head = polish(book.matter.running_title or book.title, words.quote_marks)
    labels = settled.labels
    leaves = tuple(finished_leaf(each, head, settled.design, labels) for each in settled.placed)
    entries = _outline(settled.parts, words)
    return Paginated(Document(leaves, Info(title, author, "", language), entries), labels)


def _settle(book: Book, style: Style, words: Words, language: str, trim: Trim) -> _Settled:
    """Sets and arranges the parts until neither the numbers nor the format change any more.

    The inside margin is that of the most pages there were in any round: it may only grow, or a
    narrower column that happens to need fewer pages would send it to and fro.
    """
    labels: dict[str, str] = {}
    pages = 0
    with_hints = hinted(book, words)
    for _ in range(MOST_PASSES):
        layout = page_format(trim, style.page, pages)
        design = Design(layout, style.page, style.board, words, language)
        parts = book_parts(book, with_hints, design)
        placed = arrange(_set_parts(parts, labels))
        found = labels_of(placed)
        pages = max(pages, len(placed))
        if found == labels and layout == page_format(trim, style.page, pages):
            return _Settled(design, parts, placed, labels)
        labels = found
    raise RuntimeError("the page numbers of the contents do not settle")


def _set_parts(parts: Sequence[BookPart], labels: Labels) -> list[PartPages]:
    """The pages of all parts. Raises Misfits with those of all parts."""
    pages = gathered(partial(part.set_pages, labels) for part in parts)
    return [
        PartPages(each, part.front_matter, part.on_recto)
        for each, part in zip(pages, parts, strict=True)
    ]


def arrange(parts: Sequence[PartPages]) -> list[PlacedPage]:
    """Every page in its place: parts open where they may, and the last leaf has two sides.

    Front matter counts in Roman figures; the first page after it is 1.
    """
    placed: list[PlacedPage] = []
    begins = None
    for part in parts:
        if len(placed) % 2 and part.on_recto:
            placed.append(_placed(BLANK, len(placed), begins))
        if begins is None and not part.front_matter:
            begins = len(placed)
        for page in part.pages:
            placed.append(_placed(page, len(placed), begins))
    if len(placed) % 2:
        placed.append(_placed(BLANK, len(placed), begins))
    return placed


def _placed(page: Page, index: int, begins: int | None) -> PlacedPage:
    """The page at an index from 0; the first is a recto."""
    label = roman(index + 1) if begins is None else str(index - begins + 1)
    return PlacedPage(page, index % 2 == 0, label)


def labels_of(placed: Sequence[PlacedPage]) -> dict[str, str]:
    """The label of the page that each anchor stands on."""
    return {anchor.name: each.label for each in placed for anchor in each.page.anchors}


def finished_leaf(placed: PlacedPage, head: str, design: Design, labels: Labels) -> Leaf:
    """The finished page, to be drawn when it is asked for."""
    trim = design.format.trim
    items = DrawnLater(partial(_items, placed, head, design, labels))
    return Leaf(trim.width, trim.height, items, placed.label, trim.bleed)


def _items(placed: PlacedPage, head: str, design: Design, labels: Labels) -> Iterator[Item]:
    """The items of a page in their places, its margins on their sides."""
    page, layout = placed.page, design.format
    for each in page.anchors:
        yield Anchor(each.name, each.y + layout.top)
    body = tuple(page.draw(labels))
    if design.page.heads_in_ink and design.board.ink:
        body = tuple(headings_in_ink(body, design.board.ink))
    if body:
        yield Group(layout.left(placed.recto), layout.top, body)
    yield from furniture(page, placed.recto, placed.label, head, design, labels)


def _outline(parts: Sequence[BookPart], words: Words) -> tuple[OutlineEntry, ...]:
    """The contents, what they lead to, and every puzzle under its section."""
    quotes = words.quote_marks
    entries: list[OutlineEntry] = []
    for part in parts:
        entries += (
            OutlineEntry(polish(entry.title, quotes), entry.anchor, entry.level)
            for entry in part.entries
        )
        entries += (
            OutlineEntry(
                f"{each.number}  {polish(each.puzzle.title, quotes)}", each.puzzle_anchor, 1
            )
            for each in part.puzzles
        )
    return tuple(entries)
