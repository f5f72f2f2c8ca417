"""The contents: every part of the book with the page that it opens on."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from itertools import groupby, zip_longest
from typing import Final

from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.common.design import Design
from layout.pages.common.linked import LinkedRow, listing_pages
from layout.pages.common.page import Labels, Page
from layout.type.paragraph import one_line, set_words

ANCHOR: Final = "contents"

LABEL_EMS: Final = 2.4
"""Width of the column of page numbers, and the space to the titles, in ems of an entry."""

MANY_ROWS: Final = 12
"""Rows of what is in a part, from which on they stand in two columns where they are short."""


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
        for level, entries in groupby(
            (each for each in part.entries if each.printed), key=lambda entry: entry.level
        ):
            of_level = [row for entry in entries for row in _rows(entry, labels, design)]
            rows += _beside(of_level, design) if level else of_level
    return rows


def _beside(rows: list[LinkedRow], design: Design) -> list[LinkedRow]:
    """Many short rows in two columns, read downwards; others as they are."""
    half = (design.measure + design.faces.entry.size) / 2
    right = max((x + line.width for row in rows for x, line, _ in row.links), default=0.0)
    if len(rows) < MANY_ROWS or right > half - design.faces.entry.size:
        return rows
    middle = (len(rows) + 1) // 2
    pairs = zip_longest(rows[:middle], rows[middle:], fillvalue=LinkedRow())
    return [
        replace(one, links=one.links + tuple((half + x, line, at) for x, line, at in other.links))
        for one, other in pairs
    ]


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
