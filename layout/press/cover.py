"""A cover: front, spine and back as one sheet, with marks for knife and fold.

Water lines run over all of it from the shapes of one of the book's puzzles; what is said stands
on labels. Everything is black and white.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from layout.pages.common.design import Design, cap
from layout.pages.common.misfit import JobPath, Misfit, Misfits
from layout.picture.document import Document, Info, Leaf
from layout.picture.ink import in_ink
from layout.picture.items import Fill, Item
from layout.picture.shapes import rectangle
from layout.press import bar_code
from layout.press.label import PADDING, Label, Row, centred, framed, inner_width
from layout.press.printers_marks import SLUG, crop_marks, fold_marks
from layout.press.spine import spine_items
from layout.press.water_lines import bounds, land_of, water_lines
from layout.press.wrap import Wrap
from layout.type.face import Face
from layout.type.fitting import DoesNotFit, fit_title
from layout.type.lines import Line
from layout.type.markup import read_markup
from layout.type.paragraph import set_words
from layout.type.typography import polish
from verify.puzzle import Puzzle

LABEL_TOP: Final = 0.105
LABEL_WIDTH: Final = 0.68
"""Where the labels stand and how wide they are, as shares of the page."""

PICTURE_FOOT: Final = 0.91
PICTURE_WIDTH: Final = 0.7
ABOVE_PICTURE: Final = 0.06
"""The room for the land on the front: how far down, how wide, and how far under the label."""

CODE_MARGIN: Final = 3.2
"""White around the bar code's quiet zones, up to the frame."""

MOST_TITLE_LINES: Final = 4
BLACK_LETTER: Final = "Fira Sans Regular"
"""The figures of the bar code, which any clear letter may print."""


@dataclass(frozen=True, slots=True)
class Cover:
    """What stands on a cover; empty where the job is silent.

    `blurb` is in light markup, `isbn` has its hyphens, `proved` is a sentence under the blurb,
    and `picture` is the puzzle that the picture is made of.
    """

    title: str
    subtitle: str
    author: str
    publisher: str
    blurb: str
    isbn: str
    proved: str
    picture: Puzzle


def cover_document(cover: Cover, wrap: Wrap, design: Design) -> Document:
    """The cover as a document of one leaf. Raises Misfits for words that are too long."""
    front = _front_label(cover, wrap, design)
    items = (
        *(in_ink(item, design.board.ink) for item in _picture(cover.picture, front, wrap)),
        *front.items(),
        *_back(cover, wrap, design),
        *spine_items(cover.title, cover.author, wrap, design, front.y),
        *_white_slug(wrap),
        *crop_marks(0.0, wrap.width, 0.0, wrap.height, wrap.bleed),
        *fold_marks(wrap.folds, 0.0, wrap.height, wrap.bleed),
    )
    quotes = design.words.quote_marks
    info = Info(polish(cover.title, quotes), polish(cover.author, quotes), "", design.language)
    leaf = Leaf(wrap.width, wrap.height, items, "1", wrap.bleed, SLUG)
    return Document((leaf,), info)


def _picture(puzzle: Puzzle, label: Label, wrap: Wrap) -> Iterator[Item]:
    """The land under the front's label, and lines from it over the whole sheet."""
    lands = land_of(puzzle)
    left, right, top, foot = bounds(lands)
    above = label.foot + ABOVE_PICTURE * wrap.height
    width, height = PICTURE_WIDTH * wrap.page.width, PICTURE_FOOT * wrap.height - above
    side = min(width / (right - left), height / (foot - top))
    middle = wrap.folds[1] + wrap.page.width / 2, above + height / 2
    origin = (middle[0] - (left + right) / 2 * side, middle[1] - (top + foot) / 2 * side)
    yield from water_lines(lands, origin, side, wrap.width + wrap.height)


def _front_label(cover: Cover, wrap: Wrap, design: Design) -> Label:
    """Title, subtitle, author and publisher, one under the other."""
    faces, width = design.faces, LABEL_WIDTH * wrap.page.width
    lines, face = _fit(cover.title, faces.book_title, width, design, ("title",))
    rows = list(centred(lines, cap(face), face.leading, width))
    for name, text, wanted in (
        ("subtitle", cover.subtitle, faces.subtitle),
        ("author", cover.author, faces.author),
    ):
        if text:
            if name == "author":
                rows.append(Row(1.1 * wanted.leading))
            lines, face = _fit(text, wanted, width, design, (name,))
            rows += centred(lines, 1.5 * wanted.leading, face.leading, width)
    if cover.publisher:
        path: JobPath = ("imprint", "publisher")
        lines, face = _fit(cover.publisher, faces.credit, width, design, path)
        rows += centred(lines, 2.4 * faces.credit.leading, face.leading, width)
    x = wrap.folds[1] + (wrap.page.width - width) / 2
    return Label(x, LABEL_TOP * wrap.height, width, rows)


def _fit(
    text: str, face: Face, width: float, design: Design, path: JobPath
) -> tuple[tuple[Line, ...], Face]:
    """Words as wide as a label allows. Raises Misfits, at the job's path, where they can't be."""
    words, least = polish(text, design.words.quote_marks), design.page.least
    try:
        return fit_title(words, face, inner_width(width), least, MOST_TITLE_LINES)
    except DoesNotFit:
        raise Misfits([Misfit(f"the {path[-1]} is too long for the cover", path)]) from None


def _back(cover: Cover, wrap: Wrap, design: Design) -> Iterator[Item]:
    """The blurb above, the bar code below."""
    width = LABEL_WIDTH * wrap.page.width
    left = (wrap.page.width - width) / 2
    label = Label(left, LABEL_TOP * wrap.height, width, _blurb_rows(cover, width, design))
    room = (1 - LABEL_TOP) * wrap.height
    if cover.isbn:
        x, y, across, down = _code_frame(wrap, left + width, design)
        room = y - PADDING
        yield from framed(x, y, across, down)
        yield from _code(cover.isbn, x, y, design)
    if label.foot > room:
        raise Misfits([Misfit("the words take more room than the cover has", ("cover", "words"))])
    yield from label.items()


def _blurb_rows(cover: Cover, width: float, design: Design) -> list[Row]:
    """The words of the job, and that all is proved."""
    column = replace(design.prose(), measure=inner_width(width))
    voices, note = column.voices, design.faces.note
    rows: list[Row] = []
    down = cap(voices)
    for row in column.rows(read_markup(cover.blurb, design.words.quote_marks)):
        for x, line in row.lines:
            rows.append(Row(down, line, x))
            down = 0.0
        down += voices.leading
    if rows:
        rows.append(Row(1.1 * voices.leading))
    lines = set_words(cover.proved, note, inner_width(width), "even")
    first = 1.5 * note.leading if rows else cap(note)
    return [*rows, *centred(lines, first, note.leading, width)]


def _code_frame(wrap: Wrap, right: float, design: Design) -> tuple[float, float, float, float]:
    """Left, top, width and height of the frame around the bar code."""
    width = bar_code.WIDTH + 2 * CODE_MARGIN
    height = bar_code.HEIGHT + 2 * CODE_MARGIN + _number_height(design)
    return right - width, PICTURE_FOOT * wrap.height - height, width, height


def _number_height(design: Design) -> float:
    return cap(design.faces.imprint) + bar_code.ISBN_GAP


def _code(isbn: str, x: float, y: float, design: Design) -> Iterator[Item]:
    """The number in words and as bars."""
    left, top = x + CODE_MARGIN, y + CODE_MARGIN + _number_height(design)
    yield from bar_code.isbn_over(f"ISBN {isbn}", left, top, design.faces.imprint)
    yield from bar_code.bar_code(isbn.replace("-", ""), left, top, BLACK_LETTER)


def _white_slug(wrap: Wrap) -> Iterator[Item]:
    """Clears what runs over the bleed, where the marks stand."""
    bleed, wide, high = wrap.bleed, wrap.width, wrap.height
    out = bleed + SLUG
    for x, y, width, height in (
        (-out, -out, wide + 2 * out, SLUG),
        (-out, high + bleed, wide + 2 * out, SLUG),
        (-out, -out, SLUG, high + 2 * out),
        (wide + bleed, -out, SLUG, high + 2 * out),
    ):
        yield Fill((rectangle(x, y, width, height),), 1.0)
