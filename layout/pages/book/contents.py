"""The contents: every part of the book with the page that it opens on."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.common.design import Design
from layout.pages.common.linked import LinkedRow, listing_pages
from layout.pages.common.page import Labels, Page
from layout.type.paragraph import one_line, set_words

ANCHOR: Final = "contents"

LABEL_EMS: Final = 2.4
"""Width of the column of page numbers, and the space to the titles, in ems of an entry."""


def contents_part(parts: Sequence[BookPart], design: Design) -> BookPart:
    """The contents of all parts that come after them."""
    own = ContentsEntry(design.words.pages.contents, ANCHOR)
    setting = partial(_contents_pages, parts, design)
    return BookPart(setting, (own,), front_matter=True)


def _contents_pages(parts: Sequence[BookPart], design: Design, labels: Labels) -> tuple[Page, ...]:
    """As many pages as the entries need; parts close up where that saves one."""
    title = design.words.pages.contents
    pages = listing_pages(title, ANCHOR, _every_row(parts, labels, design, tight=False), design)
    tight = listing_pages(title, ANCHOR, _every_row(parts, labels, design, tight=True), design)
    return tight if len(tight) < len(pages) else pages


def _every_row(
    parts: Sequence[BookPart], labels: Labels, design: Design, *, tight: bool
) -> list[LinkedRow]:
    rows: list[LinkedRow] = []
    for part in parts:
        rows += [] if part.closely or (tight and part.closes_up) else [LinkedRow()]
        for entry in (each for each in part.entries if each.printed):
            rows += _rows(entry, labels, design)
    return rows


def _rows(entry: ContentsEntry, labels: Labels, design: Design) -> Iterator[LinkedRow]:
    """The title, and the note below it; no page ends right after a part's title."""
    faces = design.faces
    face = faces.prose.face if entry.level else faces.entry
    column = LABEL_EMS * faces.entry.size
    label = one_line(labels.get(entry.anchor, ""), face)
    at = column - 0.8 * faces.entry.size - label.width
    for index, line in enumerate(set_words(entry.title, face, design.measure - column)):
        links = () if index else ((at, label, entry.anchor),)
        yield LinkedRow(keep=not entry.level, links=(*links, (column, line, entry.anchor)))
    if entry.note:
        yield LinkedRow(((column, one_line(entry.note, faces.note)),))
