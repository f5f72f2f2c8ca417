"""The list in a key of who has which worksheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from layout.pages.common.design import Design, cap
from layout.pages.worksheet.handout import Handout
from layout.picture.items import Item
from layout.type.fitting import shrunk_line
from layout.type.paragraph import one_line
from layout.type.typography import polish

COLUMNS: Final = 3

NAME_SHARE: Final = 0.62
"""The part of a column that a name may take; a longer one is set smaller."""

HEADING: Final = 2.0
"""From the top of the list to its first line, in leadings."""

_Entry: TypeAlias = tuple[str, str]
"""A pupil, and the name of a worksheet."""


@dataclass(frozen=True, slots=True)
class PupilPart:
    """A part of the list, on a page of its own or under what stands on the last one."""

    items: tuple[Item, ...]
    starts_page: bool


def pupil_list(handout: Handout, design: Design, used: float, top: float) -> Iterator[PupilPart]:
    """Who has which worksheet; nothing where no pupil is named.

    The last page is used down to `used`, others down to `top`, in millimetres of the text area.
    """
    left = [(copy.pupil, copy.worksheet.name(design.words)) for copy in handout.copies]
    left = [(pupil, name) for pupil, name in left if pupil]
    rows = _rows(used, design)
    starts_page = COLUMNS * rows < len(left)
    while left:
        if starts_page:
            used, rows = top, _rows(top, design)
        part, left = left[: COLUMNS * rows], left[COLUMNS * rows :]
        deep = -(-len(part) // COLUMNS)
        columns = [part[start : start + deep] for start in range(0, len(part), deep)]
        yield PupilPart(tuple(_items(columns, used, design)), starts_page)
        starts_page = True


def _rows(used: float, design: Design) -> int:
    """How many lines have room under what is used."""
    leading = design.faces.prose.leading
    return max(0, int((design.depth - used) / leading - HEADING + 1))


def _items(columns: Sequence[Sequence[_Entry]], y: float, design: Design) -> Iterator[Item]:
    """The list under its heading."""
    faces, leading = design.faces, design.faces.prose.leading
    heading = one_line(design.words.worksheet.pupils, faces.lesser_number)
    yield from heading.at(0.0, y + cap(faces.lesser_number))
    width = (design.measure - (COLUMNS - 1) * design.page.gap) / COLUMNS
    for index, column in enumerate(columns):
        for row, entry in enumerate(column):
            x = index * (width + design.page.gap)
            yield from _line(entry, x, y + (HEADING + row) * leading, width, design)


def _line(entry: _Entry, x: float, y: float, width: float, design: Design) -> Iterator[Item]:
    """A name at the left, its worksheet at the right."""
    name, sheet = entry
    face, least = design.faces.prose.face, design.page.least
    text = polish(name, design.words.quote_marks)
    yield from shrunk_line(text, face, NAME_SHARE * width, least).at(x, y)
    right = one_line(sheet, design.faces.note)
    yield from right.at(x + width - right.width, y)
