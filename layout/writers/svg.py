"""SVG bytes from a picture.

One user unit is a millimetre. Text goes out as the outlines of its glyphs, so that no font
is needed to read the file; words for those who can't see it stand in `title` and `desc`
(SVG 2, Document Structure).
"""

import hashlib
from collections.abc import Callable, Iterable
from io import StringIO
from itertools import accumulate
from typing import Any, Final

from layout.picture.ink import shade
from layout.picture.items import Anchor, Fill, Group, Item, Link, Path, Picture, Stroke, Text
from layout.type.fonts import font

UNITS: Final = 1000
"""Glyphs are written in thousandths of an em, so that their numbers stay short."""


def svg_of_picture(picture: Picture) -> bytes:
    """The picture as a file of its own; links and anchors are left out.

    Raises MissingGlyphError for what a font can't show.
    """
    import svgwrite

    width, height = _number(picture.width), _number(picture.height)
    # svgwrite's checks know neither `role` nor `aria-labelledby`.
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    prefix = _prefix(picture)
    _tell(drawing, picture, prefix)
    writer = _Writer(drawing, prefix)
    writer.write(picture.items, drawing)
    text = StringIO()
    drawing.write(text, pretty=True, indent=1)
    return text.getvalue().encode("utf-8")


def _prefix(picture: Picture) -> str:
    """What ids start with, so that two pictures in one web page keep apart."""
    words = f"{picture.title}\n{picture.description}"
    return "p" + hashlib.sha256(words.encode("utf-8")).hexdigest()[:8]


def _tell(drawing: Any, picture: Picture, prefix: str) -> None:
    """Title and description, as the first children and as the picture's label."""
    from svgwrite.base import Desc, Title

    title, description = f"{prefix}-title", f"{prefix}-desc"
    drawing.attribs.update({"role": "img", "aria-labelledby": f"{title} {description}"})
    words = picture.title or "Picture"
    for index, (kind, name, text) in enumerate(
        ((Title, title, words), (Desc, description, picture.description or words))
    ):
        element = kind(text)
        element.xml.set("id", name)
        drawing.elements.insert(index, element)


class _Writer:
    """Adds items to elements; keeps each glyph's outline once, among the definitions."""

    def __init__(self, drawing: Any, prefix: str) -> None:
        self._drawing = drawing
        self._prefix = prefix
        self._glyphs: dict[tuple[str, str], str] = {}
        self._writers: dict[type, Callable[[Any, Any], None]] = {
            Stroke: self._stroke,
            Fill: self._fill,
            Text: self._text,
            Group: self._group,
            Link: _leave_out,
            Anchor: _leave_out,
        }

    def write(self, items: Iterable[Item], parent: Any) -> None:
        """Adds the items in their order."""
        for item in items:
            self._writers[type(item)](item, parent)

    def _stroke(self, stroke: Stroke, parent: Any) -> None:
        extra = {
            "fill": "none",
            "stroke": _colour(stroke),
            "stroke_width": _number(stroke.width),
        }
        if stroke.cap != "butt":
            extra["stroke_linecap"] = stroke.cap
        if stroke.join != "miter":
            extra["stroke_linejoin"] = stroke.join
        if stroke.dash:
            extra["stroke_dasharray"] = " ".join(map(_number, stroke.dash))
        parent.add(self._drawing.path(d=_path(stroke.path), **extra))

    def _fill(self, fill: Fill, parent: Any) -> None:
        parent.add(self._drawing.path(d=_path(fill.path), fill=_colour(fill)))

    def _text(self, text: Text, parent: Any) -> None:
        scale = text.size / UNITS
        starts = accumulate(text.advances, initial=0.0)
        for char, start in zip(text.text, starts, strict=False):
            glyph = self._glyph(text.font, char)
            if glyph:
                x, y = _number(text.x + start * text.size), _number(text.y)
                place = f"translate({x} {y}) scale({scale:.6f})"
                parent.add(self._drawing.use(f"#{glyph}", transform=place, fill=_colour(text)))

    def _group(self, group: Group, parent: Any) -> None:
        moved = self._drawing.g(transform=f"translate({_number(group.x)} {_number(group.y)})")
        if group.title:
            moved.set_desc(title=group.title)
        self.write(group.items, moved)
        parent.add(moved)

    def _glyph(self, name: str, char: str) -> str:
        """The id of a glyph's outline; nothing where it has no ink."""
        if (name, char) not in self._glyphs:
            outline = font(name).outline(char)
            glyph = f"{self._prefix}-{len(self._glyphs) + 1}" if outline else ""
            self._glyphs[name, char] = glyph
            if outline:
                self._drawing.defs.add(self._drawing.path(d=_path(outline, UNITS, 0), id=glyph))
        return self._glyphs[name, char]


def _leave_out(item: Item, parent: Any) -> None:
    """For what only a document has."""


def _path(path: Path, scale: float = 1.0, decimals: int = 4) -> str:
    """Path data; absolute coordinates."""
    parts = []
    for contour in path:
        parts.append("M" + _numbers(contour.start, scale, decimals))
        for segment in contour.segments:
            letter = "L" if len(segment) == 2 else "C"
            parts.append(letter + _numbers(segment, scale, decimals))
        if contour.closed:
            parts.append("Z")
    return "".join(parts)


def _numbers(values: Iterable[float], scale: float, decimals: int) -> str:
    return " ".join(_number(value * scale, decimals) for value in values)


def _number(value: float, decimals: int = 4) -> str:
    """A number without idle zeros; by default to a tenth of a micrometre."""
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _colour(item: Stroke | Fill | Text) -> str:
    """A grey, or what a screen shows of another ink, as sRGB."""
    if item.ink is None:
        level = round(item.grey * 255)
        return f"#{level:02x}{level:02x}{level:02x}"
    shown = shade(item.ink, item.grey)
    levels = (round(light * 255) for light in (shown.red, shown.green, shown.blue))
    return "#" + "".join(f"{level:02x}" for level in levels)
