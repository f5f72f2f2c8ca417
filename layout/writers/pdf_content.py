"""Items as the operators of a page: what is painted on it.

Coordinates come out in points from the lower left corner of the medium.
"""

from collections.abc import Callable, Iterable
from typing import Any, Final

from layout.picture.items import (
    Anchor,
    Fill,
    Group,
    Ink,
    Insert,
    Item,
    Link,
    Path,
    Stroke,
    Text,
)
from layout.writers.pdf_fonts import Subsets
from layout.writers.pdf_inks import Inks
from layout.writers.pdf_inserts import insert_name
from layout.writers.pdf_numbers import coordinate, plain

POINT: Final = 72 / 25.4
"""Points in a millimetre (ISO 32000-1, 8.3.2.3)."""

CAPS: Final = {"butt": 0, "round": 1, "square": 2}
JOINS: Final = {"miter": 0, "round": 1}

BEGINNING: Final = "0 g 0 G 1 w 0 J 0 j 10 M [] 0 d"
"""The state that a page begins with (ISO 32000-1, 8.4.1)."""


class Content:
    """Draws one page, and keeps the links, anchors and inserts met on the way.

    `left` and `top` place the trim's upper left corner in points.
    """

    def __init__(self, subsets: Subsets, inks: Inks, left: float, top: float) -> None:
        self.links: list[tuple[float, float, float, float, str]] = []
        self.anchors: list[tuple[str, float]] = []
        self.inserts: dict[str, bytes] = {}
        self._subsets = subsets
        self._inks = inks
        self._lines = ["1 0 0 1 0 0 cm "]
        self._words: list[str] = []
        self._state: dict[str, tuple[Any, ...]] = {"over": (False,)}
        self._mixed = False
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

    def _set(self, key: str, values: tuple[Any, ...], operator: Callable[..., str]) -> None:
        """Tells the graphics state where it is not yet so; in a text, among its words."""
        if self._state.get(key) != values:
            self._state[key] = values
            (self._words or self._lines).append(operator(*values))

    def _colour(
        self, key: str, item: Stroke | Fill | Text, operator: Callable[[float, Ink | None], str]
    ) -> None:
        """Takes the ink of an item. Black prints over another ink, and does not leave it out.

        Where plates shift, paper would show along every line otherwise. White leaves all out.
        """
        self._set(key, (item.grey, item.ink), operator)
        self._mixed = self._mixed or item.ink is not None
        if self._mixed and not self._inks.for_screen:
            self._set("over", (item.ink is None and item.grey < 1,), self._inks.over)

    def _leave_text(self) -> None:
        if self._words:
            self._lines.append(" ".join((*self._words, "ET")))
            self._words = []
            self._state.pop("font", None)

    def stroke(self, stroke: Stroke) -> None:
        """Draws a line."""
        self._leave_text()
        self._colour("line", stroke, self._inks.stroke)
        self._set("width", (round(stroke.width * POINT, 4),), _width)
        self._set("cap", (stroke.cap,), _cap)
        self._set("join", (stroke.join,), _join)
        self._set("dash", (stroke.dash,), _dash)
        self._lines += (self._path(stroke.path), "S")

    def fill(self, fill: Fill) -> None:
        """Fills an area."""
        self._leave_text()
        self._colour("area", fill, self._inks.fill)
        self._lines += (self._path(fill.path), "f")

    def _path(self, path: Path) -> str:
        """The operators of a path."""
        left, top = self._left, self._top
        told = ["n"]
        for contour in path:
            x, y = contour.start
            told += (coordinate(left + x * POINT), coordinate(top - y * POINT), "m")
            for segment in contour.segments:
                across, down = segment[::2], segment[1::2]
                for x, y in zip(across, down, strict=True):
                    told += (coordinate(left + x * POINT), coordinate(top - y * POINT))
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
        across, up = self._left + text.x * POINT, self._top - text.y * POINT
        place = f"{coordinate(across)} {coordinate(up)}"
        self._colour("area", text, self._inks.fill)
        size = round(text.size * POINT, 4)
        if size != self._size:
            self._tell_size(size, place)
        words.append(f"1 0 0 1 {place} Tm")
        for subset, operator in self._subsets.show(text):
            self._set("font", (subset, size), _font)
            words.append(operator)
        self._pen = place

    def _tell_size(self, size: float, place: str) -> None:
        """Scales the last font to a size for a move to a place.

        A program that reads text back asks at each move whether a line ends there, which depends on
        the size of what follows. But a font is named after the move, before what it shows.
        """
        ratio, self._size = plain(size / self._size), size
        self._words.append(f"{ratio} 0 0 {ratio} {place} Tm")

    def insert(self, insert: Insert) -> None:
        """Shows a page in a rectangle, from the state that every page begins with."""
        self._leave_text()
        if self._mixed and not self._inks.for_screen:
            self._set("over", (False,), self._inks.over)
        name = insert_name(insert.page)
        self.inserts[name] = insert.page
        left, top = self._left + insert.x * POINT, self._top - insert.y * POINT
        width, height = insert.width * POINT, insert.height * POINT
        place = f"{width:.3f} 0 0 {height:.3f} {left:.3f} {top - height:.3f} cm"
        self._lines.append(f"q {BEGINNING} {place} /{name} Do Q")

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
    Insert: lambda content, item: content.insert(item),
    Link: lambda content, item: content.link(item),
    Anchor: lambda content, item: content.anchor(item),
    Group: lambda content, item: content.group(item),
}


def _width(points: float) -> str:
    return f"{plain(points)} w"


def _cap(cap: str) -> str:
    return f"{CAPS[cap]} J"


def _join(join: str) -> str:
    return f"{JOINS[join]} j"


def _dash(lengths: Iterable[float]) -> str:
    """What is drawn and left out in turn, in points."""
    told = " ".join(plain(round(length * POINT, 4)) for length in lengths)
    return f"[{told}] 0 d"


def _font(subset: str, size: float) -> str:
    return f"{subset} {plain(size)} Tf 0 TL"
