"""Items as PDF operators: what is painted on one page.

Written straight into the content stream rather than through a canvas: a book has tens of
thousands of digits, and a canvas spends most of its time on each one's state. Coordinates
come out in points from the lower left corner of the bleed. Operators: ISO 32000-1, Annex A.
"""

from collections.abc import Callable, Iterable
from typing import Any, Final

from layout.picture.items import Anchor, Fill, Group, Item, Link, Path, Stroke, Text
from layout.writers.pdf_fonts import FontShelf

POINT: Final = 72 / 25.4
"""Points in a millimetre (ISO 32000-1, 8.3.2.3)."""

CAPS: Final = {"butt": 0, "round": 1, "square": 2}
JOINS: Final = {"miter": 0, "round": 1}


class Content:
    """The operators of one page, and the links and anchors met on the way.

    `left` and `top` place the trim's upper left corner in points.
    """

    def __init__(self, shelf: FontShelf, left: float, top: float) -> None:
        self.links: list[tuple[float, float, float, float, str]] = []
        self.anchors: list[tuple[str, float]] = []
        self._shelf = shelf
        self._code: list[str] = []
        self._state: dict[str, object] = {}
        self._left = left
        self._top = top
        self._in_text = False
        self._writers: dict[type, Callable[[Any], None]] = {
            Stroke: self._stroke,
            Fill: self._fill,
            Text: self._text,
            Link: self._link,
            Anchor: self._anchor,
            Group: self._group,
        }

    def write(self, items: Iterable[Item]) -> None:
        """Adds the items in their order."""
        writers = self._writers
        for item in items:
            writers[type(item)](item)

    def finish(self) -> str:
        """All operators of the page."""
        self._leave_text()
        return "\n".join(self._code) + "\n"

    def _set(self, key: str, value: object, operators: str) -> None:
        """Adds operators where the graphics state is not yet so."""
        if self._state.get(key) != value:
            self._state[key] = value
            self._code.append(operators)

    def _leave_text(self) -> None:
        if self._in_text:
            self._code.append("ET")
            self._in_text = False

    def _stroke(self, stroke: Stroke) -> None:
        self._leave_text()
        width = stroke.width * POINT
        self._set("stroke grey", stroke.grey, f"{_number(stroke.grey)} G")
        self._set("width", width, f"{_number(width)} w")
        self._set("cap", stroke.cap, f"{CAPS[stroke.cap]} J")
        self._set("join", stroke.join, f"{JOINS[stroke.join]} j")
        dash = " ".join(_number(length * POINT) for length in stroke.dash)
        self._set("dash", stroke.dash, f"[{dash}] 0 d")
        self._path(stroke.path)
        self._code.append("S")

    def _fill(self, fill: Fill) -> None:
        self._leave_text()
        self._set("fill grey", fill.grey, f"{_number(fill.grey)} g")
        self._path(fill.path)
        self._code.append("f")

    def _path(self, path: Path) -> None:
        left, top, add = self._left, self._top, self._code.append
        for contour in path:
            x, y = contour.start
            add(f"{left + x * POINT:.3f} {top - y * POINT:.3f} m")
            for segment in contour.segments:
                if len(segment) == 2:
                    x, y = segment
                    add(f"{left + x * POINT:.3f} {top - y * POINT:.3f} l")
                else:
                    a, b, c, d, x, y = segment
                    add(
                        f"{left + a * POINT:.3f} {top - b * POINT:.3f} "
                        f"{left + c * POINT:.3f} {top - d * POINT:.3f} "
                        f"{left + x * POINT:.3f} {top - y * POINT:.3f} c"
                    )
            if contour.closed:
                add("h")

    def _text(self, text: Text) -> None:
        if not text.text:
            return
        self._set("fill grey", text.grey, f"{_number(text.grey)} g")
        if not self._in_text:
            self._code.append("BT")
            self._in_text = True
        size = text.size * POINT
        x, y = self._left + text.x * POINT, self._top - text.y * POINT
        resource, shown = self._shown(text)
        self._set("font", (resource, size), f"{resource} {_number(size)} Tf")
        self._code.append(f"1 0 0 1 {x:.3f} {y:.3f} Tm {shown}")

    def _shown(self, text: Text) -> tuple[str, str]:
        """A font's resource name, and the operator that shows text in it, with moves within."""
        code = self._shelf.code
        resource, drift = "", 0.0
        parts: list[str] = []
        for char, advance in zip(text.text, text.advances, strict=True):
            resource, shown, width = code(text.font, char)
            if abs(drift) >= 0.5:
                parts.append(f">{-drift:.0f}<")
                drift += round(-drift)
            parts.append(shown)
            drift += advance * 1000 - width
        strings = "".join(parts)
        return resource, f"[<{strings}>] TJ" if ">" in strings else f"<{strings}> Tj"

    def _link(self, link: Link) -> None:
        x, y = self._left + link.x * POINT, self._top - link.y * POINT
        width, height = link.width * POINT, link.height * POINT
        self.links.append((x, y - height, x + width, y, link.target))

    def _anchor(self, anchor: Anchor) -> None:
        self.anchors.append((anchor.name, self._top - anchor.y * POINT))

    def _group(self, group: Group) -> None:
        left, top = self._left, self._top
        self._left, self._top = left + group.x * POINT, top - group.y * POINT
        self.write(group.items)
        self._left, self._top = left, top


def _number(value: float) -> str:
    """A number with at most four decimals and no idle zeros."""
    return f"{value:.4f}".rstrip("0").rstrip(".") or "0"
