"""The pages of a finished file, to be placed on sheets: one trim, and what bleeds over it."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import pikepdf

POINT: Final = 72 / 25.4
"""Points in a millimetre (ISO 32000-1, 8.3.2.3)."""

MOST_PAGES: Final = 5000
MOST_BLEED: Final = 10 * POINT

ALIKE: Final = 0.5
"""Points by which the trims of pages may differ and still be one."""

LEAST_SIDE: Final = 40.0
MOST_SIDE: Final = 600.0
"""Bounds for a side of a page, in millimetres."""


class CannotImpose(Exception):  # noqa: N818 - what is wrong with the file, in the user's words
    """A file whose pages can't be placed on sheets; the message says why."""


@dataclass(frozen=True, slots=True)
class SourcePages:
    """A file that is open, with the size of its pages and their bleed, in points."""

    pdf: "pikepdf.Pdf"
    width: float
    height: float
    bleed: float

    @property
    def title(self) -> str:
        """What the file calls itself, or nothing."""
        with self.pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as told:
            return str(told.get("dc:title", self.pdf.docinfo.get("/Title", "")))


@contextmanager
def source_pages(source: Path | bytes) -> Iterator[SourcePages]:
    """Opens a file, or the bytes of one.

    Raises CannotImpose where it is no PDF, is locked, or its pages have several sizes.
    """
    import pikepdf

    try:
        opened = pikepdf.open(BytesIO(source) if isinstance(source, bytes) else source)
    except pikepdf.PasswordError:
        raise CannotImpose("it is locked by a password") from None
    except pikepdf.PdfError:
        raise CannotImpose("it is no PDF, or is damaged") from None
    with opened as pdf:
        try:
            yield _measured(pdf)
        except (pikepdf.PdfError, AttributeError, KeyError, TypeError, ValueError) as error:
            raise CannotImpose(f"its pages can't be read: {error}") from error


def _measured(pdf: "pikepdf.Pdf") -> SourcePages:
    """The size that all pages have. Raises CannotImpose where they have not."""
    count = len(pdf.pages)
    if not 1 <= count <= MOST_PAGES:
        raise CannotImpose(f"it has {count} pages, and a booklet has 1 to {MOST_PAGES}")
    sizes = [size_of(page) for page in pdf.pages]
    width, height = sizes[0]
    for number, (other_width, other_height) in enumerate(sizes, start=1):
        if abs(other_width - width) > ALIKE or abs(other_height - height) > ALIKE:
            found = f"{other_width / POINT:.1f} x {other_height / POINT:.1f} mm"
            wanted = f"{width / POINT:.1f} x {height / POINT:.1f} mm"
            raise CannotImpose(f"page {number} is {found}, and the first is {wanted}")
    if not LEAST_SIDE * POINT <= min(width, height) <= max(width, height) <= MOST_SIDE * POINT:
        sides = f"{width / POINT:.1f} x {height / POINT:.1f} mm"
        raise CannotImpose(f"its pages are {sides}; sides go from {LEAST_SIDE:g} to {MOST_SIDE:g}")
    return SourcePages(pdf, width, height, min(_bleed_of(page) for page in pdf.pages))


def trim_of(page: "pikepdf.Page") -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the trim; where none is told, of what a screen shows."""
    return _box(page.trimbox)


def _box(box: "pikepdf.Array") -> tuple[float, float, float, float]:
    left, bottom, right, top = (float(edge) for edge in box)
    return min(left, right), min(bottom, top), max(left, right), max(bottom, top)


def turn_of(page: "pikepdf.Page") -> int:
    """By how many degrees a page is turned clockwise when it is shown: 0, 90, 180 or 270."""
    return page.rotation % 360 // 90 * 90


def size_of(page: "pikepdf.Page") -> tuple[float, float]:
    """Width and height of the trim as it is shown. Raises CannotImpose for scaled pages."""
    if "/UserUnit" in page.obj:
        raise CannotImpose("its pages have a unit of their own")
    left, bottom, right, top = trim_of(page)
    across, up = right - left, top - bottom
    return (up, across) if turn_of(page) in (90, 270) else (across, up)


def _bleed_of(page: "pikepdf.Page") -> float:
    """How far a picture goes over the trim on every side."""
    left, bottom, right, top = trim_of(page)
    outer = _box(page.bleedbox)
    over = min(left - outer[0], bottom - outer[1], outer[2] - right, outer[3] - top)
    return min(max(over, 0.0), MOST_BLEED)
