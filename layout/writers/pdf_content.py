"""Items as the operators of a page: what is painted on it.

Coordinates come out in points from the lower left corner of the medium.
"""

from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import Any, Final

from layout.picture.items import Anchor, Fill, Group, Item, Link, Path, Stroke, Text
from layout.writers.pdf_fonts import Subsets

POINT: Final = 72 / 25.4
"""Points in a millimetre (ISO 32000-1, 8.3.2.3)."""

CAPS: Final = {"butt": 0, "round": 1, "square": 2}
JOINS: Final = {"miter": 0, "round": 1}

KEPT_NUMBERS: Final = 16384
"""Coordinates that are kept as they were written: those of grids come again on every page."""


class Content:
    """Draws one page, and keeps the links and anchors met on the way.

    `left` and `top` place the trim's upper left corner in points.
    """

    def __init__(self, subsets: Subsets, left: float, top: float) -> None:
        self.links: list[tuple[float, float, float, float, str]] = []
        self.anchors: list[tuple[str, float]] = []
        self._subsets = subsets
        self._lines = ["1 0 0 1 0 0 cm "]
        self._words: list[str] = []
        self._state: dict[str, object] = {}
        self._left = left
        self._top = top
        self._pen = "0 0"
        self._size = 1.0

    def draw(self, items: Iterable[Item]) -> bytes:
        """The content of the page with the items in their order."""
        self._draw(items)
        return self._finished()

    def _finished(self) -> bytes:
        """All that was drawn; nothing of it is kept."""
        self._leave_text()
        lines, self._lines = self._lines, []
        return "\n".join((*lines, " \n")).encode("ascii")

    def _draw(self, items: Iterable[Item]) -> None:
        for item in items:
            _WRITERS[type(item)](self, item)

    def _set(self, key: str, value: object, operator: str) -> None:
        """Tells the graphics state where it is not yet so; in a text, among its words."""
        if self._state.get(key) != value:
            self._state[key] = value
            (self._words or self._lines).append(operator)

    def _leave_text(self) -> None:
        if self._words:
            self._lines.append(" ".join((*self._words, "ET")))
            self._words = []
            self._state.pop("font", None)

    def stroke(self, stroke: Stroke) -> None:
        """Draws a line."""
        self._leave_text()
        self._set("stroke grey", stroke.grey, f"{plain(stroke.grey)} G")
        width = plain(round(stroke.width * POINT, 4))
        self._set("width", width, f"{width} w")
        self._set("cap", stroke.cap, f"{CAPS[stroke.cap]} J")
        self._set("join", stroke.join, f"{JOINS[stroke.join]} j")
        self._set("dash", stroke.dash, f"[{_dash(stroke.dash)}] 0 d")
        self._lines += (self._path(stroke.path), "S")

    def fill(self, fill: Fill) -> None:
        """Fills an area."""
        self._leave_text()
        self._set("fill grey", fill.grey, f"{plain(fill.grey)} g")
        self._lines += (self._path(fill.path), "f")

    def _path(self, path: Path) -> str:
        """The operators of a path."""
        left, top = self._left, self._top
        told = ["n"]
        for contour in path:
            x, y = contour.start
            told += (number(left + x * POINT), number(top - y * POINT), "m")
            for segment in contour.segments:
                across, down = segment[::2], segment[1::2]
                for x, y in zip(across, down, strict=True):
                    told += (number(left + x * POINT), number(top - y * POINT))
                told.append("l" if len(segment) == 2 else "c")
            if contour.closed:
                told.append("h")
        return " ".join(told)

    def text(self, text: Text) -> None:
        """Shows a text."""
        if not text.text:
            return
        if not self._words:
            # It begins at the last place, as though the text before had gone on.
            self._words = ["BT", f"1 0 0 1 {self._pen} Tm"]
        words = self._words
        place = f"{number(self._left + text.x * POINT)} {number(self._top - text.y * POINT)}"
        self._set("fill grey", text.grey, f"{plain(text.grey)} g")
        size = round(text.size * POINT, 4)
        if size != self._size:
            self._tell_size(size, place)
        words.append(f"1 0 0 1 {place} Tm")
        for subset, operator in self._subsets.show(text):
            self._set("font", (subset, size), f"{subset} {plain(size)} Tf 0 TL")
            words.append(operator)
        self._pen = place

    def _tell_size(self, size: float, place: str) -> None:
        """Scales the last font to a size for a move to a place.

        A program that reads text back asks at each move whether a line ends there, which depends on
        the size of what follows. But a font is named after the move, before what it shows.
        """
        ratio, self._size = plain(size / self._size), size
        self._words.append(f"{ratio} 0 0 {ratio} {place} Tm")

    def link(self, link: Link) -> None:
        """Notes a link down."""
        x, y = self._left + link.x * POINT, self._top - link.y * POINT
        width, height = link.width * POINT, link.height * POINT
        self.links.append((x, y - height, x + width, y, link.target))

    def anchor(self, anchor: Anchor) -> None:
        """Notes an anchor down."""
        self.anchors.append((anchor.name, self._top - anchor.y * POINT))

    def group(self, group: Group) -> None:
        """Draws items in their place."""
        self._draw_at(group.x, group.y, group.items)

    def _draw_at(self, x: float, y: float, items: Iterable[Item]) -> None:
        """Draws items moved by so many millimetres."""
        left, top = self._left, self._top
        self._left, self._top = left + x * POINT, top - y * POINT
        self._draw(items)
        self._left, self._top = left, top


_WRITERS: Final[dict[type, Callable[[Content, Any], None]]] = {
    Stroke: lambda content, item: content.stroke(item),
    Fill: lambda content, item: content.fill(item),
    Text: lambda content, item: content.text(item),
    Link: lambda content, item: content.link(item),
    Anchor: lambda content, item: content.anchor(item),
    Group: lambda content, item: content.group(item),
}


@lru_cache(KEPT_NUMBERS)
def number(coordinate: float) -> str:
    """A coordinate in points, to a third of a micrometre."""
    return plain(round(coordinate, 3))


@lru_cache(KEPT_NUMBERS)
def plain(value: float) -> str:
    """A number as a page has it: never with an exponent, six digits behind the point at most."""
    from reportlab.lib.rl_accel import fp_str

    return str(fp_str(value))


def _dash(lengths: Iterable[float]) -> str:
    """What is drawn and left out in turn, in points."""
    return " ".join(plain(round(length * POINT, 4)) for length in lengths)
