"""The format of a book's pages: trim, margins, and the area that words and grids keep to."""

from dataclasses import dataclass
from typing import Final

from layout.style.page import Binding, PageStyle

SAFE: Final = 6.35
"""Millimetres from the trim that nothing printed may come closer than: a quarter of an inch."""

ASCENT: Final = 0.8
DESCENT: Final = 0.25
"""How far letters reach above their baseline and below it, in ems."""


@dataclass(frozen=True, slots=True)
class Trim:
    """The size of a page as it is cut, and how far a picture may bleed over it, in millimetres."""

    width: float
    height: float
    bleed: float = 0.0


@dataclass(frozen=True, slots=True)
class Format:
    """A page's measures in millimetres; `head` and `folio` are baselines from the top.

    What stands in the text area counts from its upper left corner. The areas of recto and
    verso have the same size; only their place on the page is mirrored.
    """

    trim: Trim
    inside: float
    outside: float
    top: float
    foot: float
    head: float
    folio: float

    @property
    def measure(self) -> float:
        """The width of the text area."""
        return self.trim.width - self.inside - self.outside

    @property
    def depth(self) -> float:
        """The height of the text area."""
        return self.trim.height - self.top - self.foot

    def left(self, recto: bool) -> float:
        """Where the text area begins from the left."""
        return self.inside if recto else self.outside


def hidden(binding: Binding, pages: int) -> float:
    """What the back of a book of so many pages hides of its inside margins, in millimetres."""
    thickness = pages / 2 * binding.leaf
    return min(binding.hidden * thickness, binding.most)


def page_format(trim: Trim, style: PageStyle, pages: int) -> Format:
    """The format of a book of so many pages: margins by the style sheet, none under what is safe.

    With 0 pages it is that of loose leaves, whose margins are seen whole.
    """
    margins, faces = style.margins, style.faces
    inside = max(margins.inside * trim.width, SAFE) + hidden(style.binding, pages)
    outside = max(margins.outside * trim.width, SAFE)
    head = max(margins.head * trim.height, SAFE + ASCENT * faces.head.size)
    folio = max(
        margins.folio * trim.height, SAFE + DESCENT * max(faces.folio.size, faces.note.size)
    )
    return Format(
        trim,
        inside,
        outside,
        top=max(margins.top * trim.height, head),
        foot=max(margins.foot * trim.height, folio),
        head=head,
        folio=trim.height - folio,
    )
