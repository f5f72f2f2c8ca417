"""A line of words turned by a quarter, as on the spine of a book.

Its letters are outlines: no program that reads a page's words has use for those on a spine.
"""

from collections.abc import Iterator

from layout.picture.items import Contour, Fill, Item, Segment
from layout.type.fonts import font
from layout.type.lines import Line


def turned_line(line: Line, x: float, y: float, grey: float = 0.0) -> Iterator[Item]:
    """The line turned clockwise; its baseline starts at a point and runs down (ISO 6357)."""
    contours: list[Contour] = []
    for span in line.spans:
        at = span.x
        shown = font(span.font)
        for char, advance in zip(span.text, span.advances, strict=True):
            contours += (_turned(each, at, line.size, x, y) for each in shown.outline(char))
            at += advance * line.size
    if contours:
        yield Fill(tuple(contours), grey)


def _turned(contour: Contour, at: float, size: float, x: float, y: float) -> Contour:
    """A letter's contour in ems that stands at a place on its line."""

    def place(segment: Segment) -> Segment:
        pairs = zip(segment[::2], segment[1::2], strict=True)
        return tuple(value for a, b in pairs for value in (x - b * size, y + at + a * size))

    start = place(contour.start)
    segments = tuple(map(place, contour.segments))
    return Contour((start[0], start[1]), segments, contour.closed)
