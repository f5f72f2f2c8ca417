"""The content of a PDF's page with all of its colours as greys, and nothing that no press takes.

Operators are followed one by one: colours are told anew, marks for readers and layers are left
out, and only what is used is kept of the resources.
"""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any, Final, TypeAlias

from layout.artwork.artwork import CannotPlace
from layout.artwork.greys import grey_of, is_coloured
from layout.artwork.png_artwork import MOST_PIXELS, image_stream, in_greys

if TYPE_CHECKING:
    import pikepdf

Operation: TypeAlias = tuple[list[Any], str]

MOST_OPERATORS: Final = 200_000
DEEPEST: Final = 8
"""Forms within forms."""

DEVICE: Final = {"g": "fill", "rg": "fill", "k": "fill", "G": "line", "RG": "line", "K": "line"}
"""What each operator colours that says the space as well."""

INKED: Final = {"sc": "fill", "scn": "fill", "SC": "line", "SCN": "line"}
SPACES: Final = {"cs": "fill", "CS": "line"}
TELLS: Final = {"fill": "g", "line": "G"}

SHOWS: Final = frozenset(("Tj", "TJ", "'", '"'))
"""What shows letters."""

LEFT_OUT: Final = frozenset(("BMC", "BDC", "EMC", "MP", "DP", "ri", "BX", "EX", "i"))
"""Marks for readers and layers, intents, and what is asked of a screen."""

STATE_KEYS: Final = ("/LW", "/LC", "/LJ", "/ML", "/D", "/Font")
"""What is kept of a graphics state."""

COMPONENTS: Final = {
    "/DeviceGray": 1,
    "/CalGray": 1,
    "/G": 1,
    "/DeviceRGB": 3,
    "/CalRGB": 3,
    "/RGB": 3,
    "/DeviceCMYK": 4,
    "/CMYK": 4,
}


class Greys:
    """Rewrites one file's page; `coloured` tells whether any colour was met."""

    def __init__(self, pdf: "pikepdf.Pdf") -> None:
        self.coloured = False
        self._pdf = pdf
        self._count = 0
        self._forms: dict[Any, Any] = {}

    def form_of_page(self, page: "pikepdf.Page") -> "pikepdf.Stream":
        """The page as a form. Raises CannotPlace for what can't be printed as it is."""
        return self._form(page, page.obj.get("/Resources"), 0)

    def _form(self, source: Any, resources: Any, depth: int) -> "pikepdf.Stream":
        from pikepdf import Dictionary, Name, Operator, Stream, unparse_content_stream

        if depth > DEEPEST:
            raise CannotPlace(f"it has forms within forms, more than {DEEPEST} deep")
        rewriting = _Rewriting(self, Dictionary() if resources is None else resources, depth)
        operations = rewriting.operations(self._parsed(source))
        content = unparse_content_stream(
            [(operands, Operator(operator)) for operands, operator in operations]
        )
        form = Stream(self._pdf, content)
        form.Type, form.Subtype = Name.XObject, Name.Form
        form.Resources = rewriting.kept_resources()
        return form

    def _parsed(self, source: Any) -> Iterator[Operation]:
        import pikepdf

        for instruction in pikepdf.parse_content_stream(source):
            self._count += 1
            if self._count > MOST_OPERATORS:
                raise CannotPlace(f"it has more than {MOST_OPERATORS} operators")
            yield list(instruction.operands), str(instruction.operator)

    def object(self, found: Any, depth: int) -> Any:
        """What a page places on it: an image in greys, or a form."""
        key = found.objgen
        if key not in self._forms:
            self._forms[key] = self._rewritten(found, depth)
        return self._forms[key]

    def _rewritten(self, found: Any, depth: int) -> Any:
        if found.get("/Subtype") == "/Image":
            return self._image(found)
        if found.get("/Subtype") != "/Form":
            raise CannotPlace("it places something that is neither an image nor a form")
        if "/OC" in found:
            raise CannotPlace("it has layers; flatten them")
        form = self._form(found, found.get("/Resources"), depth + 1)
        form.BBox = found.BBox
        if "/Matrix" in found:
            form.Matrix = found.Matrix
        return form

    def _image(self, image: Any) -> Any:
        """The image in black and white or in greys; a stencil as it is."""
        import pikepdf

        if int(image.Width) * int(image.Height) > MOST_PIXELS:
            raise CannotPlace(f"an image in it has more than {MOST_PIXELS // 10**6} million pixels")
        if "/SMask" in image or "/Mask" in image:
            raise CannotPlace("an image in it lets something shine through; flatten it")
        if bool(image.get("/ImageMask", False)):
            return image
        try:
            grey, coloured = in_greys(pikepdf.PdfImage(image).as_pil_image())
        except (NotImplementedError, pikepdf.PdfError, OSError) as error:
            raise CannotPlace(f"an image in it can't be read: {error}") from None
        self.coloured = self.coloured or coloured
        return image_stream(self._pdf, grey)


class _Rewriting:
    """Rewrites the content of a page or of a form, with the resources that it names."""

    def __init__(self, greys: Greys, resources: Any, depth: int) -> None:
        self._greys, self._resources, self._depth = greys, resources, depth
        self._spaces = {"fill": 1, "line": 1}
        self._font = ""
        self._kept: list[tuple[dict[str, int], str]] = []
        self._used: dict[str, dict[str, Any]] = {"/Font": {}, "/XObject": {}, "/ExtGState": {}}

    def kept_resources(self) -> "pikepdf.Dictionary":
        """What the content goes on to name."""
        from pikepdf import Dictionary

        kinds = {kind: Dictionary(each) for kind, each in self._used.items() if each}
        return Dictionary(kinds)

    def operations(self, parsed: Iterable[Operation]) -> list[Operation]:
        """All operations, colours told as greys. Raises CannotPlace.

        Fonts are named only where they are shown: many a page begins with one that is not.
        """
        return [
            (operands, operator)
            for operands, operator in list(self._followed(parsed))
            if operator != "Tf" or str(operands[0]) in self._used["/Font"]
        ]

    def _followed(self, parsed: Iterable[Operation]) -> Iterator[Operation]:
        for operands, operator in parsed:
            if operator in LEFT_OUT:
                continue
            if operator in DEVICE or operator in INKED or operator in SPACES:
                yield self._colour(operands, operator)
                continue
            if operator in ("sh", "INLINE IMAGE", "d0", "d1"):
                raise CannotPlace(_REFUSED[operator])
            self._follow(operands, operator)
            yield operands, operator

    def _follow(self, operands: list[Any], operator: str) -> None:
        """Notes what an operation names, and what it keeps or brings back."""
        if operator == "q":
            self._kept.append((dict(self._spaces), self._font))
        elif operator == "Q" and self._kept:
            self._spaces, self._font = self._kept.pop()
        elif operator == "Do":
            found = self._named("/XObject", operands[0])
            self._used["/XObject"][str(operands[0])] = self._greys.object(found, self._depth)
        elif operator == "Tf":
            self._font = str(operands[0])
        elif operator in SHOWS and self._font:
            self._used["/Font"][self._font] = _embedded(self._named("/Font", self._font))
        elif operator == "gs":
            state = self._named("/ExtGState", operands[0])
            self._used["/ExtGState"][str(operands[0])] = _plain_state(state)

    def _named(self, kind: str, name: Any) -> Any:
        try:
            return self._resources[kind][name]
        except KeyError:
            raise CannotPlace(f"it is damaged: it names {name}, which is not in it") from None

    def _colour(self, operands: list[Any], operator: str) -> Operation:
        """The same colour as a grey; a space is told by its first colour, black."""
        if operator in SPACES:
            self._spaces[SPACES[operator]] = self._components(operands[0])
            return [0], TELLS[SPACES[operator]]
        what = DEVICE.get(operator) or INKED[operator]
        values = [float(each) for each in operands]
        if operator in DEVICE:
            self._spaces[what] = len(values)
        elif len(values) != self._spaces[what]:
            raise CannotPlace("it is damaged: a colour has not as many parts as its space")
        self._greys.coloured = self._greys.coloured or is_coloured(values)
        return [round(grey_of(values), 4)], TELLS[what]

    def _components(self, name: Any) -> int:
        """How many components a colour space has that can be told as grey."""
        space = self._resources.get("/ColorSpace", {}).get(name, name)
        kind = str(space[0]) if _is_array(space) else str(space)
        if kind == "/ICCBased":
            return int(space[1].N)
        if kind not in COMPONENTS:
            raise CannotPlace(f"it has a colour in {kind[1:]}; turn it to grey, RGB or CMYK")
        return COMPONENTS[kind]


_REFUSED: Final = {
    "sh": "it has a gradient; give the picture as a PNG",
    "INLINE IMAGE": "it has an image within its content; give the picture as a PNG",
    "d0": "it has drawn letters; turn them into outlines",
    "d1": "it has drawn letters; turn them into outlines",
}


def _is_array(found: Any) -> bool:
    import pikepdf

    return isinstance(found, pikepdf.Array)


def _embedded(font: Any) -> Any:
    """The font, if the file holds it."""
    inner = font.DescendantFonts[0] if "/DescendantFonts" in font else font
    descriptor = inner.get("/FontDescriptor")
    if descriptor is None or not {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor.keys()):
        raise CannotPlace("a font in it is not embedded; embed it, or turn letters into outlines")
    return font


def _plain_state(state: Any) -> Any:
    """Widths, ends and dashes of a graphics state. Raises CannotPlace for transparency."""
    from pikepdf import Dictionary

    see_through = any(float(state.get(key, 1)) != 1 for key in ("/ca", "/CA"))
    blended = str(state.get("/BM", "/Normal")) not in ("/Normal", "/Compatible")
    if see_through or blended or str(state.get("/SMask", "/None")) != "/None":
        raise CannotPlace("it has transparency; flatten it, or give the picture as a PNG")
    if "/Font" in state:
        _embedded(state.Font[0])
    return Dictionary({key: state[key] for key in STATE_KEYS if key in state})
