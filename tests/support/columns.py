"""Days of a newspaper's column for the tests, and their pictures read back."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from typing import Any

from layout.language.words import read_words
from layout.pages.column.column import ColumnDay, Previous, column_picture
from layout.pages.common.format import Trim
from layout.picture.items import Group, Item, Picture
from layout.style.style import read_style
from layout.writers.pdf import pdf_of_picture
from tests.support.books import Printed, solved
from verify.walk.report.grade import Band

CLASSIC = """\
title: Sluice Gate
constructor: Ida Marsh
kind: sudoku
size: 9
givens: |
  8 . . 1 . . . . .
  5 . . . 7 . . . 4
  . . . . . 4 5 9 .
  7 9 3 2 . 6 . . .
  6 . . . 5 . . . 3
  . . . 3 . 1 9 6 7
  . 7 6 5 . . . . .
  2 . . . 9 . . . 5
  . . . . . 3 . . 6
"""

SMALL = """\
title: Even Keel
constructor: Osbert Rudd
kind: sudoku
size: 6
rules:
  even: r2c3 s r4c1 r4c6 r5c2 r5c5 r6c3 e
givens: |
  . . . | . 3 .
  . 2 . | 6 . .
  -------------
  . . . | . 4 .
  . 6 . | . . .
  -------------
  . . 5 | . . .
  . . . | . . .
"""

MONDAY = date(2027, 1, 4)


def day_of(text: str = CLASSIC, previous: str = SMALL, **changes: Any) -> ColumnDay:
    """A Monday of the column; with the answer of Saturday's puzzle unless there is none."""
    puzzle, answer = solved(text)[:2]
    earlier = None
    if previous:
        before, its_answer = solved(previous)[:2]
        earlier = Previous(122, before, its_answer, date(2027, 1, 2))
    day = ColumnDay("Daily Grid", MONDAY, 123, puzzle, Band.STEADY, answer, earlier)
    return replace(day, **changes)


def picture_of(
    day: ColumnDay,
    width: float = 52.0,
    style: str = "newsprint",
    language: str = "en",
    **more: Any,
) -> Picture:
    """The day's picture, as wide as one column."""
    return column_picture(day, read_style(style), read_words(language), width, **more)


def printed_column(picture: Picture) -> Printed:
    """The picture's PDF, read back."""
    return Printed(pdf_of_picture(picture), Trim(picture.width, picture.height, 0))


def flat(
    items: Iterable[Item], x: float = 0.0, y: float = 0.0
) -> Iterator[tuple[Item, float, float]]:
    """Every item of a picture that is no group, with where its coordinates start."""
    for item in items:
        if isinstance(item, Group):
            yield from flat(item.items, x + item.x, y + item.y)
        else:
            yield item, x, y
