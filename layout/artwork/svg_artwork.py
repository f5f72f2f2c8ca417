"""An SVG as filled areas: lines become areas, what is cut off is cut, colours are greys.

picosvg does the geometry. It knows no text, no images and no gradients, and neither do pages of
puzzles: what has them is refused, with what to do.
"""

import re
from collections.abc import Iterator, Mapping
from math import ceil, log10
from typing import TYPE_CHECKING, Any, Final

from layout.artwork.artwork import Artwork, CannotPlace
from layout.artwork.greys import grey_of, is_coloured
from layout.picture.items import Contour, Fill, Point, Segment

if TYPE_CHECKING:
    from picosvg.svg import SVG

SVG_NAMES: Final = "{http://www.w3.org/2000/svg}"
HREF: Final = "{http://www.w3.org/1999/xlink}href"

MOST_BYTES: Final = 2 << 20
MOST_SHAPES: Final = 4_000
"""Shapes, each counted as often as it is used."""

DEEPEST: Final = 60
"""Groups within groups, those that are used among them."""

PIXEL: Final = 25.4 / 96
"""Millimetres of a unit (CSS Values and Units 4, 6.2)."""

SHAPES: Final = frozenset(
    ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "use", "g", "svg")
)
UNSEEN: Final = frozenset(
    ("defs", "clipPath", "title", "desc", "metadata", "linearGradient", "radialGradient", "stop")
)
"""What a file may hold that draws nothing by itself; what it is used for is looked at later."""

MENDS: Final[Mapping[str, str]] = {
    "text": "turn its letters into outlines",
    "image": "give the image as a PNG by itself",
    "style": "write looks as attributes of the shapes",
}
"""What to do about some elements."""

NOT_DRAWN: Final = ("filter", "mask", "marker", "marker-start", "marker-mid", "marker-end")


def svg_artwork(data: bytes) -> Artwork:
    """The picture of an SVG file. Raises CannotPlace."""
    root = _checked(data)
    drawing = _simplified(root)
    box = drawing.view_box()
    if box is None or box.w <= 0 or box.h <= 0:
        raise CannotPlace("it says neither its viewBox nor its width and height")
    fills, coloured = [], False
    for shape in drawing.shapes():  # type: ignore[no-untyped-call]
        colour = _colour(shape)
        if colour is not None:
            coloured = coloured or is_coloured(colour)
            path = tuple(_contours(shape.as_cmd_seq(), box.x, box.y))
            fills.append(Fill(path, round(grey_of(colour), 4)))
    return Artwork(box.w * PIXEL, box.h * PIXEL, tuple(fills), coloured=coloured)


def _checked(data: bytes) -> Any:
    """The root of a file that holds nothing but what can be drawn. Raises CannotPlace."""
    from lxml import etree

    if len(data) > MOST_BYTES:
        raise CannotPlace(f"it has more than {MOST_BYTES >> 20} MiB")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise CannotPlace("it is not UTF-8 text") from None
    if "<!ENTITY" in text:
        raise CannotPlace("it declares entities, which are not read")
    parser = etree.XMLParser(
        resolve_entities=False, no_network=True, load_dtd=False, remove_comments=True
    )
    try:
        root = etree.fromstring(text.encode("utf-8"), parser)
    except etree.XMLSyntaxError as error:
        raise CannotPlace(f"it is no SVG: {error.msg}") from None
    if root.tag != f"{SVG_NAMES}svg":
        raise CannotPlace("it is no SVG")
    _drop_foreign(root)
    for element in root.iter():
        _check(element)
    _count(root)
    return root


def _drop_foreign(root: Any) -> None:
    """Takes out what other programs left for themselves."""
    for element in list(root.iter()):
        own = isinstance(element.tag, str) and element.tag.startswith(SVG_NAMES)
        if not own or _name(element) == "metadata":
            parent = element.getparent()
            if parent is not None:
                parent.remove(element)


def _name(element: Any) -> str:
    return str(element.tag).removeprefix(SVG_NAMES)


def _check(element: Any) -> None:
    """Raises CannotPlace for what is not drawn; a link reads one way afterwards."""
    name = _name(element)
    line = f"line {element.sourceline}: "
    if name not in SHAPES | UNSEEN:
        mend = MENDS.get(name, "leave it out, or give the picture as a PNG")
        raise CannotPlace(f"{line}<{name}> is not drawn; {mend}")
    looks = dict(re.findall(r"([\w-]+)\s*:\s*([^;]+)", element.get("style", "")))
    for key in NOT_DRAWN:
        if looks.get(key, element.get(key, "none")).strip() != "none":
            raise CannotPlace(f"{line}{key} is not drawn; give the picture as a PNG")
    if looks.get("visibility", element.get("visibility", "visible")).strip() != "visible":
        raise CannotPlace(f"{line}something is hidden; leave it out")
    if element.get("href") is not None:
        element.set(HREF, element.attrib.pop("href"))


def _count(root: Any) -> None:
    """Raises CannotPlace for too many shapes, used ones counted each time, and for circles."""
    by_id = {each.get("id"): each for each in root.iter() if each.get("id")}
    known: dict[Any, int] = {}

    def count(element: Any, depth: int) -> int:
        if depth > DEEPEST:
            raise CannotPlace(f"its shapes use one another more than {DEEPEST} deep")
        if element not in known:
            inner = sum(count(child, depth + 1) for child in element)
            used = by_id.get(element.get(HREF, "").removeprefix("#"))
            if _name(element) == "use":
                if used is None:
                    raise CannotPlace(f"line {element.sourceline}: <use> leads to nothing in it")
                inner += count(used, depth + 1)
            known[element] = inner + (_name(element) in SHAPES)
        return known[element]

    if count(root, 0) > MOST_SHAPES:
        raise CannotPlace(f"it has more than {MOST_SHAPES} shapes; give it as a PDF")


def _simplified(root: Any) -> "SVG":
    """The same as filled areas on one another, cut off at the edge of the picture."""
    from lxml import etree
    from picosvg.svg import SVG

    try:
        drawing: SVG = SVG.fromstring(etree.tostring(root))  # type: ignore[no-untyped-call]
        box = drawing.view_box()
        digits = 3 if box is None else max(0, 5 - ceil(log10(max(box.w, box.h, 1e-6))))
        drawing.topicosvg(ndigits=digits, inplace=True)  # type: ignore[no-untyped-call]
        drawing.clip_to_viewbox(inplace=True)  # type: ignore[no-untyped-call]
    except Exception as error:  # picosvg raises whatever befalls it
        raise CannotPlace(f"it can't be drawn: {error}") from None
    return drawing


def _colour(shape: Any) -> tuple[float, ...] | None:
    """Red, green and blue of a shape from 0 to 1; None where it is not seen."""
    from PIL import ImageColor

    seen = shape.opacity * shape.fill_opacity
    if shape.fill == "none" or shape.display == "none" or seen == 0:
        return None
    if shape.fill.startswith("url("):
        raise CannotPlace("it has a gradient or a pattern; give the picture as a PNG")
    if seen < 1:
        raise CannotPlace("it lets colours shine through; flatten it, or give it as a PNG")
    name = "black" if shape.fill == "currentColor" else shape.fill
    try:
        return tuple(each / 255 for each in ImageColor.getrgb(name)[:3])
    except ValueError:
        raise CannotPlace(f'it has the colour "{name[:40]}", which is unknown') from None


def _contours(commands: Any, left: float, top: float) -> Iterator[Contour]:
    """A path's commands, all absolute, as contours in millimetres from the upper left corner."""

    def place(x: float, y: float) -> Point:
        return (x - left) * PIXEL, (y - top) * PIXEL

    start: Point = (0.0, 0.0)
    at = start
    segments: list[Segment] = []
    for command, numbers in commands:
        points = [place(*pair) for pair in zip(numbers[::2], numbers[1::2], strict=True)]
        if command == "M":
            if segments:
                yield Contour(start, tuple(segments), closed=True)
            start, segments = points[0], []
        elif command == "Q":
            segments.append(_cubic(at, *points))
        elif command in ("L", "C"):
            segments.append(tuple(number for point in points for number in point))
        at = points[-1] if points else start
    if segments:
        yield Contour(start, tuple(segments), closed=True)


def _cubic(at: Point, control: Point, end: Point) -> Segment:
    """A quadratic curve raised to a cubic one: its controls stand at 2/3 of the way."""
    (x0, y0), (cx, cy), (x, y) = at, control, end
    near = x0 + (cx - x0) * 2 / 3, y0 + (cy - y0) * 2 / 3
    far = x + (cx - x) * 2 / 3, y + (cy - y) * 2 / 3
    return (*near, *far, x, y)
