"""Items as PDF operators: what is painted on one page.

Written straight into the content stream rather than through a canvas: a book has tens of
thousands of digits, and a canvas spends most of its time on each one's state. Coordinates
come out in points from the lower left corner of the bleed. Operators: ISO 32000-1, Annex A.
"""

from collections.abc import Callable, Iterable, Iterator
from functools import cache
from pathlib import Path as FilePath
from typing import Any, Final, TypeAlias

from layout.picture.items import Anchor, Fill, Group, Item, Link, Path, Stroke, Text
from layout.type.fonts import font

POINT: Final = 72 / 25.4
"""Points in a millimetre (ISO 32000-1, 8.3.2.3)."""

CAPS: Final = {"butt": 0, "round": 1, "square": 2}
JOINS: Final = {"miter": 0, "round": 1}

Run: TypeAlias = tuple[str, tuple[str, ...], tuple[float, ...]]
"""A subset font's resource name, codes as they stand in a string, and their widths in 1/1000."""

ESCAPED: Final = {code: f"\\{code:03o}" for code in (*range(32), 40, 41, 92, *range(127, 256))}
"""Codes that may not stand in a literal string as they are."""


class FontShelf:
    """The fonts of one file: which code of which subset shows a character."""

    def __init__(self, pdf: Any) -> None:
        self._pdf = pdf
        self._codes: dict[tuple[str, str], tuple[str, str, float]] = {}

    def code(self, name: str, char: str) -> tuple[str, str, float]:
        """Resource name, escaped code and width in 1/1000 of a character.

        Raises MissingGlyphError where the font can't show it.
        """
        found = self._codes.get((name, char))
        if found is None:
            found = self._codes[name, char] = self._assign(name, char)
        return found

    def _assign(self, name: str, char: str) -> tuple[str, str, float]:
        font(name).check(char)
        face = _embeddable(font(name).path)
        ((subset, codes),) = face.splitString(char, self._pdf)
        resource = face.getSubsetInternalName(subset, self._pdf)
        code = ESCAPED.get(codes[0]) or chr(codes[0])
        return resource, code, face.face.getCharWidth(ord(char))


@cache
def _embeddable(path: FilePath) -> Any:
    """A font that knows for each document which of its glyphs that document shows.

    By its file and not by its name, since two names of one font must not make two subsets.
    """
    from reportlab.pdfbase.ttfonts import TTFont

    return TTFont(path.stem, str(path), asciiReadable=False)


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
        self._set("fill grey", text.grey, f"{_number(text.grey)} g")
        if not self._in_text:
            self._code.append("BT")
            self._in_text = True
        size = text.size * POINT
        x, y = self._left + text.x * POINT, self._top - text.y * POINT
        placed = f"1 0 0 1 {x:.3f} {y:.3f} Tm"
        for resource, shown in self._runs(text):
            self._set("font", (resource, size), f"{resource} {_number(size)} Tf")
            self._code.append(f"{placed} {shown}" if placed else shown)
            placed = ""

    def _runs(self, text: Text) -> Iterator[tuple[str, str]]:
        """The text as showing operators, one for each subset font that it runs through."""
        code = self._shelf.code
        if len(text.text) == 1:
            resource, char, _ = code(text.font, text.text)
            yield resource, f"({char}) Tj"
            return
        current, drift = "", 0.0
        parts: list[str] = []
        for char, advance in zip(text.text, text.advances, strict=True):
            resource, shown, width = code(text.font, char)
            if resource != current and parts:
                yield current, _shown(parts, drift)
                parts, drift = [], 0.0
            current = resource
            if abs(drift) >= 0.5:
                parts.append(f"){-drift:.0f}(")
                drift += round(-drift)
            parts.append(shown)
            drift += advance * 1000 - width
        if parts:
            yield current, _shown(parts, drift)

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


def _shown(parts: list[str], drift: float) -> str:
    """Strings and the moves between them; a plain string where there are none."""
    move = f"{-drift:.0f}" if abs(drift) >= 0.5 else ""
    text = "".join(parts)
    return f"({text}) Tj" if not move and len(parts) == 1 else f"[({text}){move}] TJ"


def _number(value: float) -> str:
    """A number with at most four decimals and no idle zeros."""
    return f"{value:.4f}".rstrip("0").rstrip(".") or "0"
