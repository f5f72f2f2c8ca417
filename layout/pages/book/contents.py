"""The contents: every part of the book with the page that it opens on."""

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import pairwise
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
    entries = [entry for part in parts for entry in part.entries]
    own = ContentsEntry(design.words.pages.contents, ANCHOR)
    setting = partial(_contents_pages, entries, design)
    return BookPart(setting, (own,), front_matter=True)


def _contents_pages(
    entries: Sequence[ContentsEntry], design: Design, labels: Labels
) -> tuple[Page, ...]:
    """As many pages as the entries need."""
    closely = _follow_closely(entries)
    rows = [
        row
        for entry, close in zip(entries, closely, strict=True)
        for row in _rows(entry, close, labels, design)
    ]
    return listing_pages(design.words.pages.contents, ANCHOR, rows, design)


def _follow_closely(entries: Sequence[ContentsEntry]) -> list[bool]:
    """Whether each entry and the one before are parts of a single line each."""
    nexts = [*(entry.level for entry in entries[1:]), 0]
    bare = [
        not (entry.level or entry.note or following)
        for entry, following in zip(entries, nexts, strict=True)
    ]
    return [False, *(one and other for one, other in pairwise(bare))]


def _rows(
    entry: ContentsEntry, closely: bool, labels: Labels, design: Design
) -> Iterator[LinkedRow]:
    """A part has its note below, pages do not end between them, and an empty row above it.

    It has none where it follows `closely`.
    """
    faces = design.faces
    face = faces.prose.face if entry.level else faces.entry
    column = LABEL_EMS * faces.entry.size
    label = one_line(labels.get(entry.anchor, ""), face)
    at = column - 0.8 * faces.entry.size - label.width
    if not (entry.level or closely):
        yield LinkedRow()
    for index, line in enumerate(set_words(entry.title, face, design.measure - column)):
        links = () if index else ((at, label, entry.anchor),)
        yield LinkedRow((), not entry.level, (*links, (column, line, entry.anchor)))
    if entry.note:
        yield LinkedRow(((column, one_line(entry.note, faces.note)),))
