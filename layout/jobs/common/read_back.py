"""Reads a finished file back before it takes its name."""

from pathlib import Path
from typing import Any, Final

from layout.picture.document import Document, Leaf

POINTS: Final = 72 / 25.4
"""Points in a millimetre (ISO 32000-1, 8.3.2.3)."""

TOLERANCE: Final = 0.01
"""Points that a page box may be off by rounding."""


class FaultyFile(Exception):  # noqa: N818 - a defect of this program, not of a job
    """A finished file that does not say what it was made to say."""


def read_back(path: Path, document: Document) -> None:
    """Opens the file with a program that had no part in writing it.

    Raises FaultyFile where it does not open, or has other pages or boxes than it should.
    """
    import pypdfium2

    try:
        pdf = pypdfium2.PdfDocument(path)
    except pypdfium2.PdfiumError as error:
        raise FaultyFile(f"the finished file does not open: {error}") from error
    try:
        if len(pdf) != len(document.leaves):
            raise FaultyFile(f"the file has {len(pdf)} pages, not {len(document.leaves)}")
        for index, leaf in enumerate(document.leaves):
            _check_boxes(pdf[index], leaf, index + 1)
    finally:
        pdf.close()


def _check_boxes(page: Any, leaf: Leaf, number: int) -> None:
    """The trim where it should be, inside the bleed, and that inside the medium."""
    rim, slug = leaf.rim * POINTS, leaf.slug * POINTS
    right, top = rim + leaf.width * POINTS, rim + leaf.height * POINTS
    expected = {
        "medium": (page.get_mediabox(), (0.0, 0.0, right + rim, top + rim)),
        "bleed": (page.get_bleedbox(), (slug, slug, right + rim - slug, top + rim - slug)),
        "trim": (page.get_trimbox(), (rim, rim, right, top)),
    }
    for name, (found, wanted) in expected.items():
        if any(abs(a - b) > TOLERANCE for a, b in zip(found, wanted, strict=True)):
            raise FaultyFile(f"page {number} has the {name} box {found}, not {wanted}")
