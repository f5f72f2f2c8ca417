"""A part of a book: its pages, and its lines in the contents and in the outline."""

from collections.abc import Callable
from dataclasses import dataclass

from layout.pages.common.book import Numbered
from layout.pages.common.page import Labels, Page


@dataclass(frozen=True, slots=True)
class ContentsEntry:
    """A line of the contents: level 0 is a part of the book, level 1 something in it.

    One that is not `printed` stands in the outline alone.
    """

    title: str
    anchor: str
    level: int = 0
    note: str = ""
    printed: bool = True


@dataclass(frozen=True, slots=True)
class BookPart:
    """One part of a book; its first page is a recto unless it may be any.

    `set_pages` sets its pages with the page numbers that are known by then, and raises Misfits.
    `entries` lead to it from the contents and from the outline, where `puzzles` stand below. In
    the contents an empty row parts it from the part before, unless it goes with that `closely`, or
    `closes_up` to it where that saves a page of contents.
    """

    set_pages: Callable[[Labels], tuple[Page, ...]]
    entries: tuple[ContentsEntry, ...] = ()
    puzzles: tuple[Numbered, ...] = ()
    front_matter: bool = False
    closely: bool = False
    closes_up: bool = False
    on_recto: bool = True
