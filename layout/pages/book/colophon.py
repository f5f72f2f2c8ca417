"""The colophon: what the book is set in, how many puzzles were proved, and its checksum."""

from collections.abc import Iterator
from dataclasses import fields
from textwrap import wrap
from typing import Final

from layout.language.words import fill
from layout.pages.book.book_part import BookPart
from layout.pages.common.book import Book
from layout.pages.common.design import Design, stacked
from layout.pages.common.page import Labels, Page, fixed
from layout.picture.items import Anchor, Item
from layout.type.face import Face
from layout.type.fonts import family
from layout.type.lines import Line
from layout.type.paragraph import one_line, set_words

ANCHOR: Final = "colophon"

TOGETHER: Final = 8
"""How many digits of the checksum stand together: as many as one compares at a glance."""


def colophon_part(book: Book, design: Design) -> BookPart | None:
    """One page at the end, on whichever side comes next; None where the book wants none."""
    if not book.checksum:
        return None

    def pages(_: Labels) -> tuple[Page, ...]:
        return (Page(fixed(_items(book, design)), (Anchor(ANCHOR, 0.0),), folio=False),)

    return BookPart(pages, on_recto=False)


def _items(book: Book, design: Design) -> Iterator[Item]:
    """Lines at the foot of the page, as on the imprint page."""
    face = design.faces.imprint
    lines = list(_lines(book, design, face))
    yield from stacked(lines, face.leading, 0.0, design.depth - (len(lines) - 1) * face.leading)


def _lines(book: Book, design: Design, face: Face) -> Iterator[Line]:
    words, count = design.words.pages, len(list(book.puzzles()))
    fonts = design.words.lists.join(list(dict.fromkeys(_families(design))))
    empty = Line(0.0, face.size, ())
    yield from set_words(fill(words.colophon_fonts, fonts=fonts), face, design.measure)
    yield empty
    proved = fill(words.colophon_proved.of(count), count=count)
    yield from set_words(proved, face, design.measure)
    yield empty
    yield from set_words(words.colophon_checksum, face, design.measure)
    for half in wrap(" ".join(wrap(book.checksum, TOGETHER)), _fitting(face, design.measure)):
        yield one_line(half, face)


def _fitting(face: Face, measure: float) -> int:
    """How many digits a line holds: half of them, or a quarter where the page is narrow."""
    half = one_line(" ".join(["0" * TOGETHER] * 4), face)
    return 36 if half.width <= measure else 18


def _families(design: Design) -> Iterator[str]:
    """The families of all that is said, then that of the digits."""
    for field in fields(design.faces):
        face = getattr(design.faces, field.name)
        yield family(face.font if isinstance(face, Face) else face.roman)
    yield family(design.board.digits.given)
