"""The part of a book that holds its walks: an opener, then a chapter for each puzzle."""

from collections.abc import Iterator
from functools import partial
from typing import Final

from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.common.book import Book, Numbered, WalkChoice
from layout.pages.common.design import Design
from layout.pages.common.misfit import gathered
from layout.pages.common.page import Page, Reference
from layout.pages.common.prose_pages import opener_pages
from layout.pages.walk.walk_pages import PrintedWalk, walk_pages
from layout.type.typography import TIE, polish

ANCHOR: Final = "walks"


def walks_part(book: Book, design: Design) -> BookPart | None:
    """All walks; None where the book prints none. They go with the hints: both help on the way."""
    if not book.walks:
        return None
    entries = tuple(_entries(book, design))
    return BookPart(lambda _: _walks_pages(book, design), entries, closely=book.hints > 0)


def _walks_pages(book: Book, design: Design) -> tuple[Page, ...]:
    """The opener, then each walk from a new page. Raises Misfits."""
    words = design.words.pages
    opener = opener_pages(words.walks, words.walks_note, words.walks_intro, ANCHOR, design)
    chapters = gathered(
        partial(_chapter, numbered, book.walk_choice, design) for numbered in book.walks
    )
    return (*opener, *(page for chapter in chapters for page in chapter))


def _entries(book: Book, design: Design) -> Iterator[ContentsEntry]:
    """The lines of the contents."""
    yield ContentsEntry(design.words.pages.walks, ANCHOR)
    for numbered in book.walks:
        title = polish(numbered.puzzle.title, design.words.quote_marks)
        yield ContentsEntry(f"{numbered.number}{TIE}{TIE}{title}", numbered.walk_anchor, level=1)


def _chapter(numbered: Numbered, choice: WalkChoice, design: Design) -> tuple[Page, ...]:
    """A walk; its first page names that of the puzzle."""
    assert numbered.path is not None, "what a book walks was told"  # noqa: S101
    path = PrintedWalk(
        numbered.puzzle,
        numbered.path,
        numbered.grade,
        numbered.walk_anchor,
        str(numbered.number),
        choice,
    )
    reference = Reference(design.words.pages.puzzle_on, numbered.puzzle_anchor)
    return walk_pages(path, design, reference)
