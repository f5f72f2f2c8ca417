"""A finished file's pages on the sheets of a folded booklet, with marks for knife and fold."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Final

from layout.language.words import Words, fill
from layout.picture.document import Document, Info, Leaf
from layout.picture.items import Fill, Item
from layout.picture.shapes import rectangle
from layout.press.imposition import Sheet, Spread, sheets
from layout.press.printers_marks import GAP, LENGTH, SLUG, crop_marks, fold_marks
from layout.press.source_pages import POINT, SourcePages, trim_of, turn_of
from layout.type.face import Face
from layout.type.paragraph import one_line
from layout.writers.pdf import PDF_VERSION, pdf_of_document

if TYPE_CHECKING:
    import pikepdf

NOTE: Final = Face("Fira Sans Regular", 6 * 25.4 / 72, 8 * 25.4 / 72)
"""What is said in the slug, for the binder."""

STEP_WIDTH: Final = 1.0
STEP_HEIGHT: Final = 5.0
FIRST_STEP: Final = 15.0
"""The mark in the fold of each gathering's outside, in millimetres, and where the first stands.

Each lies a step lower than that before it: in a pile in order they make a stair.
"""


@dataclass(frozen=True, slots=True)
class Folding:
    """How a booklet is folded: `signature` pages to a gathering, or all in one; paper so thick."""

    signature: int | None = None
    caliper: float = 0.0


@dataclass(frozen=True, slots=True)
class Imposed:
    """The sheets of a booklet in the order of printing, and the file with the pages on them.

    `marked` has of each sheet the front, then the back, with marks and without pages.
    """

    sheets: Sequence[Sheet]
    marked: Document
    data: bytes


def impose(source: SourcePages, folding: Folding, title: str, words: Words) -> Imposed:
    """The pages of a file on the sheets of a booklet."""
    placed = sheets(len(source.pdf.pages), folding.signature)
    marked = _marked_sheets(source, placed, folding, title, words)
    data = _filled(pdf_of_document(marked), source, placed, folding)
    return Imposed(placed, marked, data)


def _sides(placed: Sequence[Sheet]) -> Iterator[tuple[Sheet, Spread]]:
    """The sides in the order in which they are printed."""
    for sheet in placed:
        yield sheet, sheet.front
        yield sheet, sheet.back


def _marked_sheets(
    source: SourcePages, placed: Sequence[Sheet], folding: Folding, title: str, words: Words
) -> Document:
    """All sides with their marks, and no pages on them yet."""
    width, height = 2 * source.width / POINT, source.height / POINT
    bleed = source.bleed / POINT
    several = placed[-1].gathering > 0
    leaves = []
    for number, (sheet, side) in enumerate(_sides(placed), start=1):
        creep = sheet.creep(folding.caliper)
        items: list[Item] = [
            *crop_marks(creep, width - creep, 0.0, height, bleed),
            *fold_marks((width / 2,), 0.0, height, bleed),
            *_note(sheet, front=side is sheet.front, foot=height + bleed, words=words),
        ]
        if several and sheet.index == 0 and side is sheet.front:
            items += _step(sheet, width / 2, height)
        leaves.append(Leaf(width, height, tuple(items), str(number), bleed, SLUG))
    return Document(tuple(leaves), Info(title, language=words.language))


def _note(sheet: Sheet, *, front: bool, foot: float, words: Words) -> Iterator[Item]:
    """Which gathering, sheet and side it is."""
    said = words.press.front if front else words.press.back
    text = fill(said, gathering=sheet.gathering + 1, sheet=sheet.index + 1)
    yield from one_line(text, NOTE).at(GAP + LENGTH, foot + GAP + LENGTH)


def _step(sheet: Sheet, fold: float, height: float) -> Iterator[Item]:
    """The mark in the fold, as far down as the gathering comes in the pile."""
    rows = max(int((height - 2 * FIRST_STEP) / STEP_HEIGHT), 1)
    y = FIRST_STEP + sheet.gathering % rows * STEP_HEIGHT
    yield Fill((rectangle(fold - STEP_WIDTH / 2, y, STEP_WIDTH, STEP_HEIGHT),))


def _filled(marked: bytes, source: SourcePages, placed: Sequence[Sheet], folding: Folding) -> bytes:
    """The sheets with the pages in their places."""
    import pikepdf
    from pikepdf import Name

    with pikepdf.open(BytesIO(marked)) as pdf:
        for page, (sheet, side) in zip(pdf.pages, _sides(placed), strict=True):
            page.Resources = pikepdf.Dictionary(dict(page.resources.items()))
            creep = sheet.creep(folding.caliper) * POINT
            for number, right in ((side.left, False), (side.right, True)):
                if number is not None:
                    form = pdf.copy_foreign(_form(source.pdf.pages[number - 1]))
                    name = page.add_resource(form, Name.XObject, Name(f"/Page{number}"))
                    place = _place(source, number, right=right, creep=creep)
                    page.contents_add(f"q {place} {name} Do Q\n".encode(), prepend=True)
        pdf.Root.ViewerPreferences.Duplex = Name.DuplexFlipShortEdge
        return _saved(pdf, source)


def _form(page: "pikepdf.Page") -> "pikepdf.Object":
    """All that a page shows, bleed and all, as something that can be placed."""
    form = page.as_form_xobject(handle_transformations=False)
    form.BBox = page.mediabox
    return form


def _place(source: SourcePages, number: int, *, right: bool, creep: float) -> str:
    """What clips a page to its half of the sheet and moves it there: PDF operators, in points.

    Its bleed is kept on the three sides that are cut; nothing goes over the fold.
    """
    bleed, width, height = source.bleed, source.width, source.height
    rim = SLUG * POINT + bleed
    fold = rim + width
    clip = (fold if right else rim - bleed, rim - bleed, width + bleed, height + 2 * bleed)
    x = fold - creep if right else rim + creep
    return f"{_numbers(clip)} re W n {_numbers(_matrix(source, number, x, rim))} cm"


def _matrix(source: SourcePages, number: int, x: float, y: float) -> Sequence[float]:
    """What moves the lower left corner of a page's trim, as it is shown, to a point."""
    page = source.pdf.pages[number - 1]
    left, bottom, right, top = trim_of(page)
    return {
        0: (1, 0, 0, 1, x - left, y - bottom),
        90: (0, -1, 1, 0, x - bottom, y + right),
        180: (-1, 0, 0, -1, x + right, y + top),
        270: (0, 1, -1, 0, x + top, y - left),
    }[turn_of(page)]


def _numbers(values: Sequence[float]) -> str:
    return " ".join(f"{value:.4f}" for value in values)


def _saved(pdf: "pikepdf.Pdf", source: SourcePages) -> bytes:
    """The file, as new a PDF as what it was made of, its ID a hash of all that is in it."""
    from pikepdf import ObjectStreamMode

    data = BytesIO()
    pdf.save(
        data,
        force_version=max(PDF_VERSION, source.pdf.pdf_version),
        object_stream_mode=ObjectStreamMode.disable,
        deterministic_id=True,
    )
    return data.getvalue()
