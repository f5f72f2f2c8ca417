"""The index of constructors: who made the puzzles, and on which pages they stand."""

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from typing import Final, TypeAlias

from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.common.book import Book, Numbered
from layout.pages.common.design import Design
from layout.pages.common.linked import LinkedRow, listing_pages
from layout.pages.common.page import Labels, Page
from layout.type.lines import Line
from layout.type.paragraph import one_line, set_words

ANCHOR: Final = "constructors"

HANG_EMS: Final = 1.5
"""How far the page numbers below a name are indented."""


_Credits: TypeAlias = Sequence[tuple[str, Sequence[Numbered]]]
"""Each constructor with his or her puzzles."""


def constructors_part(book: Book, design: Design) -> BookPart | None:
    """The index; None where no puzzle has a constructor."""
    credited = _by_constructor(book, design.words.sorting)
    if not credited:
        return None
    entry = ContentsEntry(design.words.pages.constructors, ANCHOR)
    return BookPart(partial(_constructor_pages, credited, design), (entry,), closes_up=True)


def _constructor_pages(credited: _Credits, design: Design, labels: Labels) -> tuple[Page, ...]:
    """As many pages as the names need."""
    note = one_line(design.words.pages.constructors_note, design.faces.note)
    rows = [LinkedRow(((0.0, note),), keep=True), LinkedRow((), keep=True)]
    for name, puzzles in credited:
        rows += _rows(name, puzzles, labels, design)
    return listing_pages(design.words.pages.constructors, ANCHOR, rows, design)


def _by_constructor(book: Book, sorting: Mapping[str, str]) -> _Credits:
    """Names by their last word, each with its puzzles in the order of the book."""
    by_name: dict[str, list[Numbered]] = {}
    for numbered in book.puzzles():
        if numbered.puzzle.credits.constructor:
            by_name.setdefault(numbered.puzzle.credits.constructor, []).append(numbered)
    return sorted(by_name.items(), key=lambda entry: sort_key(entry[0], sorting))


def sort_key(name: str, sorting: Mapping[str, str]) -> tuple[str, str]:
    """A name as it is sorted: without case and accents, the last word first.

    `sorting` is what letters count as in the language; other accents count for nothing.
    """
    letters = unicodedata.normalize("NFKC", name).casefold()
    told = "".join(sorting.get(letter, letter) for letter in letters)
    plain = "".join(
        char for char in unicodedata.normalize("NFKD", told) if not unicodedata.combining(char)
    )
    return plain.rpartition(" ")[2], plain


def _rows(
    name: str, puzzles: Sequence[Numbered], labels: Labels, design: Design
) -> Iterator[LinkedRow]:
    """The name, then the page numbers in the same row and, indented, in those below."""
    face = design.faces.index
    *above, last = set_words(name, face, design.measure)
    yield from (LinkedRow(((0.0, line),), keep=True) for line in above)
    lines: tuple[tuple[float, Line], ...] = ((0.0, last),)
    links: list[tuple[float, Line, str]] = []
    x = last.width + face.size
    for line, anchor in _numbers(puzzles, labels, design):
        if x + line.width > design.measure:
            yield LinkedRow(lines, links=tuple(links))
            lines, links, x = (), [], HANG_EMS * face.size
        links.append((x, line, anchor))
        x += line.width
    yield LinkedRow(lines, links=tuple(links))


def _numbers(
    puzzles: Sequence[Numbered], labels: Labels, design: Design
) -> Iterator[tuple[Line, str]]:
    """Each page once, with the comma and the space that follow it."""
    anchors = {labels.get(each.puzzle_anchor, ""): each.puzzle_anchor for each in reversed(puzzles)}
    pages = list(reversed(anchors.items()))
    for index, (label, anchor) in enumerate(pages, start=1):
        comma = design.words.lists.comma if index < len(pages) else ""
        yield one_line(label + comma, design.faces.index), anchor
