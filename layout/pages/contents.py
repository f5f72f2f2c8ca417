"""The contents: every part of the book with the page that it opens on."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.pages.design import Design
from layout.pages.linked import LinkedRow, listing_pages
from layout.pages.page import Labels, Page
from layout.type.paragraph import one_line, set_words

ANCHOR: Final = "contents"

LABEL_EMS: Final = 2.4
"""Width of the column of page numbers, and the space to the titles, in ems of an entry."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the contents: level 0 is a part of the book, level 1 something in it."""

    title: str
    anchor: str
    level: int = 0
    note: str = ""

    @property
    def is_bare(self) -> bool:
        """Whether it is a part of which no more is said."""
        return not self.level and not self.note


def contents_pages(entries: Sequence[Entry], labels: Labels, design: Design) -> tuple[Page, ...]:
    """As many pages as the entries need."""
    pairs = zip((None, *entries), entries, strict=False)
    rows = [row for before, entry in pairs for row in _rows(before, entry, labels, design)]
    return listing_pages(design.words.pages.contents, ANCHOR, rows, design)


def _rows(
    before: Entry | None, entry: Entry, labels: Labels, design: Design
) -> Iterator[LinkedRow]:
    """A part has an empty row above it, its note below; pages do not end between them.

    Parts that are a single line each follow one another closely.
    """
    faces = design.faces
    face = faces.prose.face if entry.level else faces.entry
    column = LABEL_EMS * faces.entry.size
    label = one_line(labels.get(entry.anchor, ""), face)
    at = column - 0.8 * faces.entry.size - label.width
    if not entry.level and not (before and before.is_bare and entry.is_bare):
        yield LinkedRow()
    for index, line in enumerate(set_words(entry.title, face, design.measure - column)):
        links = () if index else ((at, label, entry.anchor),)
        yield LinkedRow((), not entry.level, (*links, (column, line, entry.anchor)))
    if entry.note:
        yield LinkedRow(((column, one_line(entry.note, faces.note)),))
