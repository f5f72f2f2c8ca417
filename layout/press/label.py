"""A label as it is pasted on a cover: words on white, in a double frame."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum
from typing import Final

from layout.picture.items import Fill, Item, Stroke
from layout.picture.shapes import polyline, rectangle
from layout.type.lines import Line

EDGE: Final = 0.9 * 25.4 / 72
FRAME: Final = 0.35 * 25.4 / 72
FRAME_INSET: Final = 1.2
"""The line around a label and the fine one inside it, in millimetres."""

PADDING: Final = 7.0
PADDING_ABOVE: Final = 8.6
"""White between the edge of a label and its words, at the sides and above and below them."""

RULE: Final = 14.0
"""How long a rule between words is."""


@dataclass(frozen=True, slots=True)
class Row:
    """A line and where it starts from the left; `down` leads from the baseline before it.

    A row without a line is a short rule in the middle.
    """

    down: float
    line: Line | None = None
    x: float = 0.0


@dataclass(frozen=True, slots=True)
class Label:
    """Rows in a frame so wide; `x` and `y` are its upper left corner."""

    x: float
    y: float
    width: float
    rows: Sequence[Row]

    @property
    def height(self) -> float:
        """Of the frame."""
        return fsum(row.down for row in self.rows) + 2 * PADDING_ABOVE

    @property
    def foot(self) -> float:
        """The lower edge."""
        return self.y + self.height

    def items(self) -> Iterator[Item]:
        """The paper, the frame and the words."""
        yield from framed(self.x, self.y, self.width, self.height)
        y = self.y + PADDING_ABOVE
        for row in self.rows:
            y += row.down
            if row.line is None:
                middle = self.x + self.width / 2
                ends = [(middle - RULE / 2, y), (middle + RULE / 2, y)]
                yield Stroke((polyline(ends),), FRAME)
            else:
                yield from row.line.at(self.x + PADDING + row.x, y)


def inner_width(width: float) -> float:
    """What the words of a label may take."""
    return width - 2 * PADDING


def centred(lines: Sequence[Line], first: float, leading: float, width: float) -> Iterator[Row]:
    """Lines in the middle of a label that wide; the first that far under what is before it."""
    room = inner_width(width)
    for index, line in enumerate(lines):
        yield Row(leading if index else first, line, (room - line.width) / 2)


def framed(x: float, y: float, width: float, height: float) -> Iterator[Item]:
    """White with a double frame."""
    inset = FRAME_INSET
    yield Fill((rectangle(x, y, width, height),), 1.0)
    yield Stroke((rectangle(x, y, width, height),), EDGE)
    yield Stroke((rectangle(x + inset, y + inset, width - 2 * inset, height - 2 * inset),), FRAME)
