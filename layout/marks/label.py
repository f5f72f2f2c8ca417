"""Small words: in the corner of a cell, or centred on a point."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Final, Literal, Protocol, TypeAlias

from layout.marks.lattice import Lattice
from layout.picture.items import Point, Text
from layout.style.board import Weight
from layout.type.fonts import font
from verify.board import Cell

LOWEST_FOOT: Final = 0.335
"""How far down its cell a label may reach, as a share: below that a digit wants its room."""

Box: TypeAlias = tuple[float, float, float, float]
"""Left, top, right and bottom."""


class CornerLook(Protocol):
    """How a label in a corner is set: its figures' height, and how far it stands from the edges."""

    @property
    def label(self) -> str:
        """The font."""
        ...

    @property
    def label_height(self) -> Weight:
        """The height of its figures."""
        ...

    @property
    def label_corner(self) -> float:
        """How far its ink stands from the cell's edges, as a share of the cell."""
        ...


def corner_label(
    words: str,
    cell: Cell,
    look: CornerLook,
    lattice: Lattice,
    corner: Literal["left", "right"] = "left",
) -> Text:
    """A label whose ink lies in an upper corner of a cell."""
    face = font(look.label)
    left, bottom, right, top = face.bounds(words)
    inset, side = look.label_corner * lattice.side, lattice.side
    size = min(
        look.label_height.at(side) / face.digit_height,
        (LOWEST_FOOT * side - inset) / (top - bottom),
        (side - 2 * inset) / (right - left),
    )
    x, y = lattice.corner(*lattice.board.place(cell))
    start = inset - left * size if corner == "left" else side - inset - right * size
    return Text(x + start, y + inset + top * size, words, look.label, size, face.advances(words))


def centred(words: str, name: str, size: float, middle: Point) -> Text:
    """Words whose ink is centred on a point both ways."""
    face = font(name)
    left, bottom, right, top = face.bounds(words)
    x = middle[0] - (left + right) / 2 * size
    return Text(x, middle[1] + (bottom + top) / 2 * size, words, name, size, face.advances(words))


def figure(symbol: str, name: str, height: float, middle: Point) -> Text:
    """A symbol around a point, figures so high.

    Its ink is centred across; symbols of one row share a baseline, whatever their own ink.
    """
    text = centred(symbol, name, height / font(name).digit_height, middle)
    return replace(text, y=middle[1] + height / 2)


def widest(symbols: Iterable[str], name: str) -> float:
    """The width of the widest of some symbols, in heights of a figure."""
    face = font(name)
    bounds = [face.bounds(symbol) for symbol in symbols]
    return max(right - left for left, _, right, _ in bounds) / face.digit_height


def ink_box(text: Text) -> Box:
    """Where the ink of a text lies."""
    left, bottom, right, top = (each * text.size for each in font(text.font).bounds(text.text))
    return text.x + left, text.y - top, text.x + right, text.y - bottom
