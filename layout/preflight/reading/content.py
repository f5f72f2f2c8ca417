"""What a page's content paints: its operators followed one by one (ISO 32000-1, 8 and 9)."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final
from warnings import catch_warnings, simplefilter

import pikepdf

from layout.preflight.reading.faces import Face, read_face
from layout.preflight.reading.geometry import (
    UNMOVED,
    Box,
    Matrix,
    Point,
    after,
    applied,
    around_all,
    box_around,
    scale_of,
)
from layout.preflight.reading.marks import BLACK, Contour, Ink, Letter, Marks, Paint, PlacedImage
from layout.preflight.reading.streams import Unread, bytes_of

MOST_OPERATORS: Final = 400_000
"""Operators of one page: a full one of this house has some thousands."""

DEEPEST: Final = 12
"""Forms within forms."""

ON_PRESS: Final = frozenset({"Cyan", "Magenta", "Yellow", "Black", "None"})
"""Plates that need no spot ink (ISO 32000-1, 8.6.6.4)."""

NOWHERE: Final = Box(-1e6, -1e6, 1e6, 1e6)


@dataclass(frozen=True, slots=True)
class State:
    """The graphics state, as far as it matters here."""

    ctm: Matrix = UNMOVED
    clip: Box = NOWHERE
    stroke: Ink = BLACK
    fill: Ink = BLACK
    stroke_space: str = "DeviceGray"
    fill_space: str = "DeviceGray"
    width: float = 1.0
    face: Face | None = None
    size: float = 0.0
    spacing: float = 0.0
    word_spacing: float = 0.0
    stretch: float = 1.0
    leading: float = 0.0
    rise: float = 0.0
    mode: int = 0


class Faces:
    """The fonts of a file, each read once."""

    def __init__(self) -> None:
        self._read: dict[Any, Face] = {}

    def face(self, font: Any) -> Face:
        """A font, by its place in the file if it has one."""
        key = font.objgen
        if key == (0, 0):
            return read_face(font)
        if key not in self._read:
            self._read[key] = read_face(font)
        return self._read[key]


def read_content(page: Any, resources: Any, faces: Faces) -> Marks:
    """All that a page paints. Raises Unread for what can't be followed."""
    reader = _Reader(faces)
    reader.read(_content(page), resources, State())
    reader.note_faces(resources)
    return reader.marks()


def _content(page: Any) -> bytes:
    """The content, of one stream or of several that are read as one."""
    found = page.get("/Contents")
    if found is None:
        return b""
    parts = list(found) if isinstance(found, pikepdf.Array) else [found]
    return b"\n".join(bytes_of(part) for part in parts if isinstance(part, pikepdf.Stream))


def _instructions(data: bytes) -> list[Any]:
    """Operators with what they are given. Raises Unread for what is cut short or damaged."""
    with pikepdf.new() as holder, catch_warnings():
        simplefilter("error")
        try:
            return list(pikepdf.parse_content_stream(holder.make_stream(data)))
        except Warning as warning:
            raise Unread(str(warning)) from None


class _Reader:
    """Follows operators, and keeps what they paint."""

    def __init__(self, faces: Faces) -> None:
        self._faces = faces
        self._letters: list[Letter] = []
        self._paints: list[Paint] = []
        self._images: list[PlacedImage] = []
        self._inks: set[str] = set()
        self._plates: set[str] = set()
        self._coverage = 0.0
        self._states: set[str] = set()
        self._shown: dict[Face, None] = {}
        self._count = 0
        self._depth = 0
        self._state = State()
        self._kept: list[State] = []
        self._resources: Any = None
        self._path: list[tuple[list[Point], bool, bool]] = []
        self._clipping = False
        self._text: Matrix = UNMOVED
        self._line: Matrix = UNMOVED
        self._operators: Mapping[str, Callable[..., None]] = {
            **{name: getattr(self, f"_{told}") for name, told in _TOLD.items()},
            **{name: self._painter(*how) for name, how in _PAINTERS.items()},
        }

    def marks(self) -> Marks:
        """What was met."""
        return Marks(
            tuple(self._letters),
            tuple(self._paints),
            tuple(self._images),
            frozenset(self._inks),
            frozenset(self._states),
            tuple(self._shown),
            self._count,
            frozenset(self._plates),
            self._coverage,
        )

    def note_faces(self, resources: Any) -> None:
        """Fonts that the page lists are its own, shown or not."""
        fonts = resources.get("/Font") if resources is not None else None
        for font in list(fonts.values())[:1000] if fonts is not None else ():
            self._shown.setdefault(self._faces.face(font))

    def read(self, data: bytes, resources: Any, state: State) -> None:
        """Follows content from a state on. Raises Unread."""
        outer = self._resources, self._state, self._kept
        self._resources, self._state, self._kept = resources, state, []
        for instruction in _instructions(data):
            self._count += 1
            if self._count > MOST_OPERATORS:
                raise Unread(f"more than {MOST_OPERATORS} operators on a page")
            do = self._operators.get(str(instruction.operator))
            if do is not None:
                do(*instruction.operands)
        self._resources, self._state, self._kept = outer

    def _change(self, **values: Any) -> None:
        self._state = replace(self._state, **values)

    # The state

    def _keep(self) -> None:
        if len(self._kept) >= 1000:
            raise Unread("more than 1000 states kept at once")
        self._kept.append(self._state)

    def _restore(self) -> None:
        if self._kept:
            self._state = self._kept.pop()

    def _move(self, *matrix: Any) -> None:
        self._change(ctm=after(_matrix(matrix), self._state.ctm))

    def _width(self, width: Any) -> None:
        self._change(width=float(width))

    def _graphics_state(self, name: Any) -> None:
        told = self._resources.ExtGState[name]
        if "/LW" in told:
            self._change(width=float(told.LW))
        if "/Font" in told:
            self._change(face=self._faces.face(told.Font[0]), size=float(told.Font[1]))
        for key in ("/ca", "/CA"):
            if key in told and float(told[key]) != 1.0:
                self._states.add("transparency")
        if str(told.get("/BM", "/Normal")) not in ("/Normal", "/Compatible"):
            self._states.add("transparency")
        if str(told.get("/SMask", "/None")) != "/None":
            self._states.add("transparency")
        if any(key in told for key in ("/TR", "/TR2", "/HTP")):
            self._states.add("a transfer curve")

    # Inks

    def _grey(self, *values: Any) -> None:
        self._inked("fill", "DeviceGray", values)

    def _stroke_grey(self, *values: Any) -> None:
        self._inked("stroke", "DeviceGray", values)

    def _rgb(self, *values: Any) -> None:
        self._inked("fill", "DeviceRGB", values)

    def _stroke_rgb(self, *values: Any) -> None:
        self._inked("stroke", "DeviceRGB", values)

    def _cmyk(self, *values: Any) -> None:
        self._inked("fill", "DeviceCMYK", values)

    def _stroke_cmyk(self, *values: Any) -> None:
        self._inked("stroke", "DeviceCMYK", values)

    def _space(self, name: Any) -> None:
        self._change(fill_space=self._named_space(name))

    def _stroke_space(self, name: Any) -> None:
        self._change(stroke_space=self._named_space(name))

    def _ink(self, *values: Any) -> None:
        self._inked("fill", self._state.fill_space, values)

    def _stroke_ink(self, *values: Any) -> None:
        self._inked("stroke", self._state.stroke_space, values)

    def _inked(self, what: str, space: str, values: Iterable[Any]) -> None:
        numbers = tuple(float(each) for each in values if not isinstance(each, pikepdf.Name))
        self._inks.add(space)
        ink = Ink(space, numbers)
        self._coverage = max(self._coverage, ink.coverage)
        self._change(**{what: ink, f"{what}_space": space})

    def _named_space(self, name: Any) -> str:
        spaces = self._resources.get("/ColorSpace") if self._resources is not None else None
        if spaces is not None and name in spaces:
            self._plates.update(plates_of(spaces[name]))
            return space_of(spaces[name])
        return space_of(name)

    # Paths

    def _start(self, x: Any, y: Any) -> None:
        self._path.append(([self._at(x, y)], False, False))

    def _on(self, *numbers: Any) -> None:
        if not self._path:
            raise Unread("a path that does not begin")
        points, closed, _ = self._path[-1]
        if closed:
            self._path.append(([points[0]], False, False))
            points, closed, _ = self._path[-1]
        pairs = list(map(float, numbers))
        points.extend(self._at(*pair) for pair in zip(pairs[::2], pairs[1::2], strict=True))
        if len(pairs) > 2:
            self._path[-1] = points, closed, True

    def _close(self) -> None:
        if self._path:
            points, _, curved = self._path[-1]
            self._path[-1] = points, True, curved

    def _rectangle(self, x: Any, y: Any, width: Any, height: Any) -> None:
        left, low = float(x), float(y)
        right, high = left + float(width), low + float(height)
        corners = [(left, low), (right, low), (right, high), (left, high)]
        self._path.append(([self._at(*corner) for corner in corners], True, False))

    def _clip(self) -> None:
        self._clipping = True

    def _at(self, x: Any, y: Any) -> Point:
        return applied(self._state.ctm, float(x), float(y))

    def _painter(self, stroked: bool, filled: bool, closed: bool) -> Callable[[], None]:
        def paint() -> None:
            if closed:
                self._close()
            self._paint(stroked, filled)

        return paint

    def _paint(self, stroked: bool, filled: bool) -> None:
        contours = tuple(
            Contour((*points, points[0]) if closed else tuple(points), closed, curved)
            for points, closed, curved in self._path
        )
        self._path = []
        state = self._state
        if contours and self._clipping:
            self._change(clip=state.clip.common(around_all(each.box for each in contours)))
        self._clipping = False
        if not contours or not (stroked or filled):
            return
        width = state.width * scale_of(state.ctm) if stroked else 0.0
        box = around_all(each.box for each in contours).grown(width / 2)
        if state.clip.meets(box):
            inks = state.stroke if stroked else None, state.fill if filled else None
            self._paints.append(Paint(contours, box.common(state.clip), *inks, width, self._count))

    # Text

    def _begin_text(self) -> None:
        self._text = self._line = UNMOVED

    def _font(self, name: Any, size: Any) -> None:
        face = self._faces.face(self._resources.Font[name])
        self._shown.setdefault(face)
        self._change(face=face, size=float(size))

    def _place(self, *matrix: Any) -> None:
        self._text = self._line = _matrix(matrix)

    def _next(self, x: Any, y: Any) -> None:
        self._text = self._line = after((1, 0, 0, 1, float(x), float(y)), self._line)

    def _next_leading(self, x: Any, y: Any) -> None:
        self._change(leading=-float(y))
        self._next(x, y)

    def _next_line(self) -> None:
        self._next(0, -self._state.leading)

    def _letter_spacing(self, value: Any) -> None:
        self._change(spacing=float(value))

    def _word_spacing(self, value: Any) -> None:
        self._change(word_spacing=float(value))

    def _stretch(self, value: Any) -> None:
        self._change(stretch=float(value) / 100)

    def _leading(self, value: Any) -> None:
        self._change(leading=float(value))

    def _rise(self, value: Any) -> None:
        self._change(rise=float(value))

    def _mode(self, value: Any) -> None:
        self._change(mode=int(value))

    def _show_line(self, text: Any) -> None:
        self._next_line()
        self._show(text)

    def _show_spaced(self, words: Any, letters: Any, text: Any) -> None:
        self._change(word_spacing=float(words), spacing=float(letters))
        self._show_line(text)

    def _show_all(self, parts: Any) -> None:
        for part in parts:
            if isinstance(part, pikepdf.String | str | bytes):
                self._show(part)
            else:
                state = self._state
                self._ahead(-float(part) / 1000 * state.size * state.stretch)

    def _ahead(self, by: float) -> None:
        a, b, c, d, e, f = self._text
        self._text = a, b, c, d, e + by * a, f + by * b

    def _show(self, text: Any) -> None:
        state, face = self._state, self._state.face
        if face is None:
            raise Unread("text without a font")
        em = (state.size * state.stretch, 0.0, 0.0, state.size, 0.0, state.rise)
        a, b, c, d, e, f = after(after(em, self._text), state.ctm)
        size = scale_of((a, b, c, d, e, f))
        # What a step along the line of text is on the page.
        ahead_x, ahead_y = _turned(state.ctm, *self._text[:2])
        ink = state.stroke if state.mode == 1 else state.fill
        moved = 0.0
        for code in face.codes(bytes(text)):
            glyph = face.glyph(code)
            x, y = e + moved * ahead_x, f + moved * ahead_y
            step = glyph.advance * state.size + state.spacing
            if code == 32 and not face.wide:
                step += state.word_spacing
            moved += step * state.stretch
            if state.mode == 3:
                continue
            box = None if glyph.ink is None else _moved_box(glyph.ink, (a, b, c, d, x, y))
            if box is not None and not state.clip.meets(box):
                continue
            end = glyph.advance * a + x, glyph.advance * b + y
            self._letters.append(
                Letter(glyph.text, (x, y), end, size, box, face, code, ink, self._count)
            )
        self._ahead(moved)

    # Images and forms

    def _do(self, name: Any) -> None:
        what = self._resources.XObject[name]
        if what.get("/Subtype") == "/Image":
            self._image(what)
        elif what.get("/Subtype") == "/Form":
            self._form(what)

    def _image(self, image: Any) -> None:
        state = self._state
        a, b, c, d, _, _ = state.ctm
        wide, high = (a * a + b * b) ** 0.5, (c * c + d * d) ** 0.5
        across = int(image.Width) / wide * 72 if wide else 0.0
        down = int(image.Height) / high * 72 if high else 0.0
        mask = bool(image.get("/ImageMask", False))
        space = state.fill.space if mask else space_of(image.get("/ColorSpace", "/DeviceGray"))
        self._inks.add(space)
        self._plates.update(plates_of(image.get("/ColorSpace")))
        if "/SMask" in image:
            self._states.add("transparency")
        bits = 1 if mask else int(image.get("/BitsPerComponent", 8))
        box = _moved_box(Box(0, 0, 1, 1), state.ctm).common(state.clip)
        self._images.append(PlacedImage(box, min(across, down), space, bits, self._count))

    def _inline_image(self, image: Any) -> None:
        self._image(image.obj)

    def _form(self, form: Any) -> None:
        if self._depth >= DEEPEST:
            raise Unread(f"forms within forms, more than {DEEPEST} deep")
        if "/Group" in form and form.Group.get("/S") == "/Transparency":
            self._states.add("transparency")
        self._depth += 1
        state = self._state
        matrix = _matrix(form.get("/Matrix", UNMOVED))
        inner = replace(state, ctm=after(matrix, state.ctm))
        if "/BBox" in form:
            corners = Box(*map(float, form.BBox))
            inner = replace(inner, clip=state.clip.common(_moved_box(corners, inner.ctm)))
        self.read(bytes_of(form), form.get("/Resources", self._resources), inner)
        self._depth -= 1

    def _shade(self, name: Any) -> None:
        self._inks.add(space_of(self._resources.Shading[name].ColorSpace))


def space_of(told: Any) -> str:
    """The name of a colour space; that of its base, where it has one."""
    if isinstance(told, pikepdf.Array):
        name = str(told[0])[1:]
        if name in ("Indexed", "I", "Pattern") and len(told) > 1:
            return space_of(told[1])
        if name in ("Separation", "DeviceN") and space_of(told[2]) == "DeviceRGB":
            return "DeviceRGB"
        return name
    short = {"G": "DeviceGray", "RGB": "DeviceRGB", "CMYK": "DeviceCMYK"}
    name = str(told)[1:]
    return short.get(name, name)


def plates_of(told: Any) -> Iterator[str]:
    """The names of the spot inks of a colour space; those of the four on a press are none."""
    if not isinstance(told, pikepdf.Array):
        return
    kind = str(told[0])[1:]
    if kind in ("Indexed", "I", "Pattern") and len(told) > 1:
        yield from plates_of(told[1])
    names: list[Any] = [told[1]] if kind == "Separation" else []
    if kind == "DeviceN":
        names = list(told[1])
    for name in names:
        if str(name)[1:] not in ON_PRESS:
            yield str(name)[1:]


def _matrix(numbers: Iterable[Any]) -> Matrix:
    a, b, c, d, e, f = map(float, numbers)
    return a, b, c, d, e, f


def _turned(matrix: Matrix, x: float, y: float) -> Point:
    """A way, not a place, through a matrix."""
    a, b, c, d, _, _ = matrix
    return a * x + c * y, b * x + d * y


def _moved_box(box: Box, matrix: Matrix) -> Box:
    a, b, c, d, e, f = matrix
    if b == c == 0 and a > 0 and d > 0:
        left, bottom, right, top = box
        return Box(a * left + e, d * bottom + f, a * right + e, d * top + f)
    corners = [(x, y) for x in (box.left, box.right) for y in (box.bottom, box.top)]
    return box_around(applied(matrix, *corner) for corner in corners)


_TOLD: Final[Mapping[str, str]] = {
    "q": "keep",
    "Q": "restore",
    "cm": "move",
    "w": "width",
    "gs": "graphics_state",
    "g": "grey",
    "G": "stroke_grey",
    "rg": "rgb",
    "RG": "stroke_rgb",
    "k": "cmyk",
    "K": "stroke_cmyk",
    "cs": "space",
    "CS": "stroke_space",
    "sc": "ink",
    "scn": "ink",
    "SC": "stroke_ink",
    "SCN": "stroke_ink",
    "m": "start",
    "l": "on",
    "c": "on",
    "v": "on",
    "y": "on",
    "h": "close",
    "re": "rectangle",
    "W": "clip",
    "W*": "clip",
    "BT": "begin_text",
    "Tf": "font",
    "Tm": "place",
    "Td": "next",
    "TD": "next_leading",
    "T*": "next_line",
    "Tc": "letter_spacing",
    "Tw": "word_spacing",
    "Tz": "stretch",
    "TL": "leading",
    "Ts": "rise",
    "Tr": "mode",
    "Tj": "show",
    "'": "show_line",
    '"': "show_spaced",
    "TJ": "show_all",
    "Do": "do",
    "INLINE IMAGE": "inline_image",
    "sh": "shade",
}
"""What each operator is called here."""

_PAINTERS: Final[Mapping[str, tuple[bool, bool, bool]]] = {
    "S": (True, False, False),
    "s": (True, False, True),
    "f": (False, True, False),
    "F": (False, True, False),
    "f*": (False, True, False),
    "B": (True, True, False),
    "B*": (True, True, False),
    "b": (True, True, True),
    "b*": (True, True, True),
    "n": (False, False, False),
}
"""Whether each painting operator strokes, fills, and closes its path first."""
