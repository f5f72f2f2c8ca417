"""A path -> a finished file as facts, whatever the file is: bounded, and without a traceback."""

import re
from collections.abc import Callable, Iterator
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import Any, Final, TypeVar

import pikepdf
from pikepdf.models import PdfParsingError

from layout.preflight.reading.content import Faces, read_content
from layout.preflight.reading.finished import (
    FinishedFile,
    Intent,
    Leaf,
    LinkBox,
    OutlineLine,
    Target,
)
from layout.preflight.reading.geometry import Box
from layout.preflight.reading.labels import page_labels
from layout.preflight.reading.marks import Marks
from layout.preflight.reading.phrases import phrases_of
from layout.preflight.reading.streams import Unread, bytes_of, inflated
from layout.preflight.reading.xmp import read_xmp

T = TypeVar("T")
U = TypeVar("U")

MOST_FILE: Final = 512 * 2**20
"""Bytes of a file: a book of a thousand puzzles has some three million."""

MOST_PAGES: Final = 10_000
MOST_LINKS: Final = 20_000
MOST_LINES: Final = 50_000
MOST_PACKED: Final = 64 * 2**20
"""Bytes that the packed objects of a file may come to, together."""

MOST_OPERATORS: Final = 40_000_000
"""Operators of all pages together."""

INHERITED: Final = 64
"""Levels that the tree of pages may be deep."""

NO_MARKS: Final = Marks((), (), (), frozenset(), frozenset(), (), 0)

BROKEN: Final = (
    Unread,
    pikepdf.PdfError,
    pikepdf.DataDecodingError,
    PdfParsingError,
    TypeError,
    ValueError,
    KeyError,
    IndexError,
    AttributeError,
    ArithmeticError,
    NotImplementedError,
    RecursionError,
)
"""What a damaged part of a file can make of what is asked of it."""


class Unusable(Exception):  # noqa: N818 - what befell the input, in the editor's words
    """A file that can't be read as a PDF at all; the message says why."""


def read_finished(path: Path, name: str) -> FinishedFile:
    """A finished file. Raises Unusable, and OSError where the system does not give it."""
    return read_bytes(_bytes(path), name)


def read_bytes(data: bytes, name: str) -> FinishedFile:
    """The same of a file's bytes."""
    _refuse_packed(data)
    try:
        with pikepdf.open(BytesIO(data), suppress_warnings=True) as pdf:
            return _File(pdf, name, data).read()
    except pikepdf.PasswordError:
        raise Unusable("found a file that asks for a password") from None
    except BROKEN as error:
        raise Unusable(f"found no PDF that can be read: {_short(error)}") from error


def count_pages(path: Path) -> int:
    """How many pages a file has. Raises Unusable."""
    data = _bytes(path)
    _refuse_packed(data)
    try:
        with pikepdf.open(BytesIO(data), suppress_warnings=True) as pdf:
            return len(pdf.pages)
    except (pikepdf.PasswordError, *BROKEN) as error:
        raise Unusable(f"found no PDF that can be read: {_short(error)}") from error


def _bytes(path: Path) -> bytes:
    if not path.is_file():
        raise Unusable("found no file, expected a PDF")
    if path.stat().st_size > MOST_FILE:
        raise Unusable(f"found a file of more than {MOST_FILE} bytes")
    return path.read_bytes()


def _refuse_packed(data: bytes) -> None:
    """Refuses files whose packed objects would fill the memory as soon as they are opened."""
    total = 0
    for found in re.finditer(rb"/(?:ObjStm|XRef)\b[^>]{0,400}>>\s*stream\r?\n", data):
        try:
            total += len(inflated(data[found.end() :][:MOST_PACKED], MOST_PACKED))
        except Unread as unread:
            if "more than" in str(unread):
                raise Unusable("found objects packed to more than can be read") from unread
        if total > MOST_PACKED:
            raise Unusable("found objects packed to more than can be read")


def _short(error: BaseException) -> str:
    """The first line of what went wrong, without the place of the file in the system."""
    first = str(error).strip().splitlines()[:1] or [type(error).__name__]
    return first[0].rpartition("/")[2][:200]


class _File:
    """Reads an opened file."""

    def __init__(self, pdf: Any, name: str, data: bytes) -> None:
        self._pdf, self._name, self._data = pdf, name, data
        self._faces = Faces()
        self._numbers: dict[Any, int] = {}
        self._names: dict[str, Any] = {}

    def read(self) -> FinishedFile:
        """The whole file. Raises Unusable."""
        pages = list(self._pdf.pages)
        if not 0 < len(pages) <= MOST_PAGES:
            raise Unusable(f"found {len(pages)} pages, expected 1 to {MOST_PAGES}")
        self._numbers = {page.obj.objgen: at for at, page in enumerate(pages, start=1)}
        root = self._pdf.Root
        self._names = dict(_or(lambda: list(_named(root)), []))
        labels = _or(lambda: page_labels(root.get("/PageLabels"), len(pages)), None)
        leaves, operators = [], 0
        for number, page in enumerate(pages, start=1):
            label = labels[number - 1] if labels else str(number)
            leaves.append(self._leaf(page.obj, number, label, operators))
            operators += leaves[-1].marks.operators
        xmp, xmp_fault = self._xmp(root)
        return FinishedFile(
            name=self._name,
            header=self._data[:16].split(b"\n")[0].split(b"\r")[0].decode("latin-1"),
            leaves=tuple(leaves),
            labelled=labels is not None,
            outline=tuple(_or(lambda: list(self._outline(root)), [])),
            info=_or(self._info, {}),
            xmp=xmp,
            xmp_fault=xmp_fault,
            catalog=frozenset(root.keys()),
            language=str(root.get("/Lang", "")),
            identifiers=tuple(_or(lambda: [bytes(each) for each in self._pdf.trailer.ID], [])),
            intents=tuple(_or(lambda: [_intent(each) for each in root.OutputIntents], [])),
            encrypted=self._pdf.is_encrypted,
            banned=frozenset(self._banned(root)),
        )

    # Pages

    def _leaf(self, page: Any, number: int, label: str, before: int) -> Leaf:
        marks, fault = NO_MARKS, ""
        try:
            if before > MOST_OPERATORS:
                raise Unread(f"more than {MOST_OPERATORS} operators in the file")
            marks = read_content(page, _inherited(page, "/Resources"), self._faces)
        except BROKEN as error:
            fault = _short(error)
        boxes = dict(_boxes(page))
        if "Media" not in boxes:
            raise Unusable(f"found page {number} without a size")
        notes = _or(lambda: list(page.get("/Annots", ()))[:MOST_LINKS], [])
        links = tuple(filter(None, (_or(partial(self._link, note), None) for note in notes)))
        kinds = tuple(filter(None, (_or(partial(_other, note), None) for note in notes)))
        group = _or(lambda: page.Group.get("/S") == "/Transparency", False)
        turned = _or(lambda: int(_inherited(page, "/Rotate") or 0), 0)
        unit = _or(lambda: float(page.get("/UserUnit", 1)), 1.0)
        return Leaf(
            number,
            label,
            boxes,
            turned,
            unit,
            marks,
            links,
            kinds,
            group,
            phrases_of(marks.letters),
            fault,
        )

    def _link(self, note: Any) -> LinkBox | None:
        if note.get("/Subtype") != "/Link":
            return None
        return LinkBox(_box(note.Rect), self._target(note))

    # What leads somewhere

    def _target(self, holder: Any) -> Target:
        """Where a link or a line of the outline leads."""
        action = holder.get("/A")
        if action is not None and action.get("/S") == "/URI":
            return Target(0, uri=str(action.get("/URI", ""))[:500])
        told = holder.get("/Dest")
        if told is None and action is not None and action.get("/S") == "/GoTo":
            told = action.get("/D")
        return _or(lambda: self._place(told), Target(0))

    def _place(self, told: Any) -> Target:
        if isinstance(told, pikepdf.String | pikepdf.Name):
            told = self._names.get(str(told))
            if isinstance(told, pikepdf.Dictionary):
                told = told.D
        page = self._numbers.get(told[0].objgen, 0)
        top = float(told[3]) if str(told[1]) == "/XYZ" and told[3] is not None else None
        return Target(page, top)

    def _outline(self, root: Any) -> Iterator[OutlineLine]:
        """The lines of the outline, in their order; a circle in it is left."""
        first = root.get("/Outlines", {}).get("/First")
        waiting: list[tuple[Any, int]] = [(first, 0)]
        seen: set[Any] = set()
        while waiting and len(seen) < MOST_LINES:
            line, level = waiting.pop()
            if line is None or line.objgen in seen:
                continue
            seen.add(line.objgen)
            yield OutlineLine(str(line.get("/Title", "")), level, self._target(line))
            waiting.append((line.get("/Next"), level))
            waiting.append((line.get("/First"), level + 1))

    # What the file says of itself

    def _info(self) -> dict[str, str]:
        told = self._pdf.trailer.get("/Info")
        return {} if told is None else {key: str(value)[:5000] for key, value in told.items()}

    def _xmp(self, root: Any) -> tuple[dict[str, str], str]:
        if "/Metadata" not in root:
            return {}, ""
        try:
            return read_xmp(bytes_of(root.Metadata, 2**20)), ""
        except BROKEN as error:
            return {}, _short(error)

    def _banned(self, root: Any) -> Iterator[str]:
        names = root.get("/Names", {})
        if "/OpenAction" in root or "/AA" in root:
            yield "an action when it is opened"
        if "/JavaScript" in names:
            yield "a script"
        if "/AcroForm" in root:
            yield "a form to be filled in"
        if "/EmbeddedFiles" in names:
            yield "a file inside"
        if "/OCProperties" in root:
            yield "layers"
        if re.search(rb"/Type\s*/(?:ObjStm|XRef)\b", self._data):
            yield "packed objects"
        for name in (b"LZWDecode", b"JBIG2Decode", b"JPXDecode"):
            if re.search(rb"/" + name + rb"\b", self._data):
                yield f"{name.decode()} data"


def _or(read: Callable[[], T], otherwise: U) -> T | U:
    """What is read, or something else where the file is damaged there."""
    try:
        return read()
    except BROKEN:
        return otherwise


def _inherited(page: Any, key: str) -> Any:
    """An entry of a page, or of what it lies in (ISO 32000-1, 7.7.3.4)."""
    node = page
    for _ in range(INHERITED):
        if node is None or key in node:
            return None if node is None else node[key]
        node = node.get("/Parent")
    return None


def _boxes(page: Any) -> Iterator[tuple[str, Box]]:
    for name in ("Media", "Crop", "Bleed", "Trim", "Art"):
        inherits = name in ("Media", "Crop")
        key = f"/{name}Box"
        told = _inherited(page, key) if inherits else page.get(key)
        box = None if told is None else _or(partial(_box, told), None)
        if box is not None:
            yield name, box


def _box(told: Any) -> Box:
    x1, y1, x2, y2 = map(float, told)
    return Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))


def _other(note: Any) -> tuple[str, Box] | None:
    kind = str(note.get("/Subtype", "/none"))[1:]
    return None if kind == "Link" else (kind, _box(note.Rect))


def _named(root: Any) -> Iterator[tuple[str, Any]]:
    """Places by name, of the older and of the newer kind of list."""
    for key, value in root.get("/Dests", {}).items():
        yield key, value
    tree = root.get("/Names", {}).get("/Dests")
    if tree is not None:
        for at, (key, value) in enumerate(pikepdf.NameTree(tree).items()):
            if at >= MOST_LINES:
                return
            yield str(key), value


def _intent(told: Any) -> Intent:
    profile = told.get("/DestOutputProfile")
    facts = None
    if profile is not None:
        head = bytes_of(profile, 16 * 2**20)[:128].decode("latin-1")
        facts = (head[12:16], head[16:20].strip(), int(profile.get("/N", 0)))
    kind, condition, registry, info = (
        str(told.get(key, ""))
        for key in ("/S", "/OutputConditionIdentifier", "/RegistryName", "/Info")
    )
    return Intent(kind, condition, registry, info, facts)
