"""Items drawn on a canvas: what is painted on one page.

Coordinates come out in points from the lower left corner of the bleed.
"""

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, Final

from layout.picture.items import (
    Anchor,
    Fill,
    Group,
    Insert,
    Item,
    Link,
    Path,
    Point,
    Stroke,
    Text,
)
from layout.writers.pdf_fonts import canvas_font, moved
from layout.writers.pdf_inserts import insert_name

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.pdfgen.textobject import PDFTextObject

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

    def __init__(self, canvas: "Canvas", left: float, top: float) -> None:
        self.links: list[tuple[float, float, float, float, str]] = []
        self.anchors: list[tuple[str, float]] = []
        self.inserts: dict[str, bytes] = {}
        self._canvas = canvas
        self._words: PDFTextObject | None = None
        self._state: dict[str, object] = {}
        self._left = left
        self._top = top
        self._pen: Point = (0, 0)
        self._size = 1.0
        self._writers: dict[type, Callable[[Any], None]] = {
            Stroke: self._stroke,
            Fill: self._fill,
            Text: self._text,
            Insert: self._insert,
            Link: self._link,
            Anchor: self._anchor,
            Group: self._group,
        }

    def draw(self, items: Iterable[Item]) -> None:
        """Draws the items in their order, and ends the page."""
        self._draw(items)
        self._leave_text()
        self._canvas.showPage()

    def _draw(self, items: Iterable[Item]) -> None:
        writers = self._writers
        for item in items:
            writers[type(item)](item)

    def _set(self, key: str, value: object, *told: Any, by: Callable[..., None]) -> None:
        """Tells the graphics state where it is not yet so."""
        if self._state.get(key) != value:
            self._state[key] = value
            by(*told or (value,))

    def _leave_text(self) -> None:
        if self._words is not None:
            self._canvas.drawText(self._words)
            self._words = None
            del self._state["font"]

    def _stroke(self, stroke: Stroke) -> None:
        self._leave_text()
        canvas = self._canvas
        self._set("stroke grey", stroke.grey, by=canvas.setStrokeGray)
        self._set("width", round(stroke.width * POINT, 4), by=canvas.setLineWidth)
        self._set("cap", CAPS[stroke.cap], by=canvas.setLineCap)
        self._set("join", JOINS[stroke.join], by=canvas.setLineJoin)
        dash = [round(length * POINT, 4) for length in stroke.dash]
        self._set("dash", dash, by=canvas.setDash)
        canvas.addLiteral(self._path(stroke.path))
        canvas.addLiteral("S")

    def _fill(self, fill: Fill) -> None:
        self._leave_text()
        self._set("fill grey", fill.grey, by=self._canvas.setFillGray)
        self._canvas.addLiteral(self._path(fill.path))
        self._canvas.addLiteral("f")

    def _path(self, path: Path) -> str:
        """The operators of a path; its numbers are written all at once, which is sooner."""
        from reportlab.lib.rl_accel import fp_str

        numbers: list[float] = []
        operators = ["n"]
        at = self._at
        for contour in path:
            numbers += at(*contour.start)
            operators.append("%s %s m")
            for segment in contour.segments:
                if len(segment) == 2:
                    numbers += at(*segment)
                    operators.append("%s %s l")
                else:
                    a, b, c, d, x, y = segment
                    numbers += (*at(a, b), *at(c, d), *at(x, y))
                    operators.append("%s %s %s %s %s %s c")
            if contour.closed:
                operators.append("h")
        return " ".join(operators) % tuple(fp_str(*numbers).split())

    def _at(self, x: float, y: float) -> Point:
        """A place in points, to a third of a micrometre."""
        return round(self._left + x * POINT, 3), round(self._top - y * POINT, 3)

    def _text(self, text: Text) -> None:
        if not text.text:
            return
        words, place = self._open_text(), self._at(text.x, text.y)
        self._set("fill grey", text.grey, by=words.setFillGray)
        name, size = canvas_font(text.font), round(text.size * POINT, 4)
        if size != self._size:
            self._tell_size(size, place)
        self._set("font", (name, size), name, size, 0, by=words.setFont)
        words.setTextOrigin(*place)
        words.textOut(moved(text))
        self._pen = place

    def _open_text(self) -> "PDFTextObject":
        """Where text goes; if anew, it begins at the last place, as though it had gone on."""
        if self._words is None:
            self._words = self._canvas.beginText(*self._pen)
        return self._words

    def _tell_size(self, size: float, place: Point) -> None:
        """Scales the last font to a size for a move to a place.

        A program that reads text back asks at each move whether a line ends there, which depends on
        the size of what follows. But a canvas names a font after the move, before what it shows.
        """
        ratio, self._size = size / self._size, size
        self._open_text().setTextTransform(ratio, 0, 0, ratio, *place)

    def _insert(self, insert: Insert) -> None:
        """Shows a page in a rectangle, from the state that every page begins with."""
        self._leave_text()
        name = insert_name(insert.page)
        self.inserts[name] = insert.page
        left, top = self._at(insert.x, insert.y)
        right, bottom = self._at(insert.x + insert.width, insert.y + insert.height)
        place = f"{right - left:.3f} 0 0 {top - bottom:.3f} {left:.3f} {bottom:.3f} cm"
        self._canvas.addLiteral(f"q {BEGINNING} {place} /{name} Do Q")

    def _link(self, link: Link) -> None:
        x, y = self._left + link.x * POINT, self._top - link.y * POINT
        width, height = link.width * POINT, link.height * POINT
        self.links.append((x, y - height, x + width, y, link.target))

    def _anchor(self, anchor: Anchor) -> None:
        self.anchors.append((anchor.name, self._top - anchor.y * POINT))

    def _group(self, group: Group) -> None:
        self._draw_at(group.x, group.y, group.items)

    def _draw_at(self, x: float, y: float, items: Iterable[Item]) -> None:
        """Draws items moved by so many millimetres."""
        left, top = self._left, self._top
        self._left, self._top = left + x * POINT, top - y * POINT
        self._draw(items)
        self._left, self._top = left, top
