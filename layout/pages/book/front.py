"""What stands before the contents: half title, title page, imprint page."""

from collections.abc import Iterator
from functools import partial
from typing import Final

from layout.language.words import fill
from layout.pages.book.book_part import BookPart
from layout.pages.common.book import Book
from layout.pages.common.design import Design, fit, heading, stacked
from layout.pages.common.misfit import gathered
from layout.pages.common.page import BLANK, Page, fixed
from layout.pages.common.prose_pages import row_items, rows_below
from layout.picture.items import Anchor, Item
from layout.type.face import Face
from layout.type.lines import Line
from layout.type.markup import read_markup
from layout.type.paragraph import set_words
from layout.type.typography import polish

TITLE_HEIGHT: Final = 0.27
"""Where titles stand, as a share of the text area's depth from its top."""

MOST_TITLE_LINES: Final = 4


def front_part(book: Book, design: Design) -> BookPart:
    """What stands before the contents; no line of these leads to it."""
    return BookPart(lambda _: _front_pages(book, design), front_matter=True)


def _front_pages(book: Book, design: Design) -> tuple[Page, ...]:
    """Half title, a blank, title page and imprint page; the dedication on a recto of its own.

    Raises Misfits for long titles.
    """
    makers = (_half_title, _title_page, _imprint_page)
    half, title, imprint = gathered(
        partial(lambda make: tuple(make(book, design)), make) for make in makers
    )
    return (
        Page(fixed(half), (Anchor("half-title", 0.0),), folio=False),
        BLANK,
        Page(fixed(title), (Anchor("title-page", 0.0),), folio=False),
        Page(fixed(imprint), folio=False),
        *_dedication(book, design),
    )


def _dedication(book: Book, design: Design) -> tuple[Page, ...]:
    """The dedication, where titles stand, and the blank behind it; no pages without one."""
    if not book.matter.dedication:
        return ()
    rows = design.prose().rows(read_markup(book.matter.dedication, design.words.quote_marks))
    first = rows_below(TITLE_HEIGHT * design.depth, design.faces.prose, white=0.0)
    items = row_items(rows, first, design.faces.prose)
    return Page(fixed(items), (Anchor("dedication", 0.0),), folio=False), BLANK


def _half_title(book: Book, design: Design) -> Iterator[Item]:
    lines, face = fit(book.title, design.faces.half_title, design, MOST_TITLE_LINES, ("title",))
    yield from stacked(lines, face.leading, 0.0, TITLE_HEIGHT * design.depth)


def _title_page(book: Book, design: Design) -> Iterator[Item]:
    """Title, subtitle and author from above, the publisher at the foot."""
    faces = design.faces
    y = TITLE_HEIGHT * design.depth
    for name, text, wanted in (
        ("title", book.title, faces.book_title),
        ("subtitle", book.subtitle, faces.subtitle),
        ("author", book.author, faces.author),
    ):
        lines, face = fit(text, wanted, design, MOST_TITLE_LINES, (name,))
        set_lines = stacked(lines, face.leading, 0.0, y)
        yield from [heading(set_lines, "H1")] if name == "title" else set_lines
        y += (len(lines) + 0.5) * wanted.leading if lines else 0.0
    lines, face = _publisher(book, design)
    yield from stacked(lines, face.leading, 0.0, design.depth - (len(lines) - 1) * face.leading)


def _publisher(book: Book, design: Design) -> tuple[tuple[Line, ...], Face]:
    path = ("imprint", "publisher")
    return fit(book.imprint.publisher, design.faces.author, design, MOST_TITLE_LINES, path)


def _imprint_page(book: Book, design: Design) -> Iterator[Item]:
    """Who publishes the book, its number, and what was proved, at the foot of the page."""
    face = design.faces.imprint
    lines: list[Line] = []
    for group in _imprint_groups(book, design):
        printed = [polish(text, design.words.quote_marks) for text in group if text]
        if printed and lines:
            lines.append(Line(0.0, face.size, ()))
        for text in printed:
            lines += set_words(text, face, design.measure)
    yield from stacked(lines, face.leading, 0.0, design.depth - (len(lines) - 1) * face.leading)


def _imprint_groups(book: Book, design: Design) -> Iterator[tuple[str, ...]]:
    """The imprint's lines, by what belongs together; some may be empty."""
    words, imprint = design.words.pages, book.imprint
    yield book.title, book.author
    yield imprint.publisher, imprint.edition
    yield (imprint.copyright,)
    yield imprint.lines
    yield (fill(words.isbn, isbn=imprint.isbn) if imprint.isbn else "",)
    yield (words.proved,)
