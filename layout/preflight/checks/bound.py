"""A cover or sheets against the book that goes into them: the spine, and how many sides."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile

POINT: Final = 25.4 / 72

NEAR: Final = 0.1
"""Millimetres by which a cover may be wider or higher by rounding."""


@dataclass(frozen=True, slots=True)
class Bound:
    """A book: its trim in millimetres, its pages, and how thick a leaf is.

    `spine` is how wide a job says that the spine is; None where it goes by the pages. A
    `signature` is how many pages are folded together; None for all.
    """

    width: float
    height: float
    pages: int
    leaf: float
    spine: float | None = None
    signature: int | None = None


def check_spine(file: FinishedFile, book: Bound) -> Iterator[Finding]:
    """A cover that is not as wide as two pages and their thickness, or not as high."""
    trim = file.leaves[0].trim
    spine = book.pages / 2 * book.leaf if book.spine is None else book.spine
    width, found = 2 * book.width + spine, trim.width * POINT
    if abs(found - width) > NEAR:
        words = f"the cover leaves {found - 2 * book.width:.1f} mm for the spine, expected"
        why = f" for {book.pages} pages on paper of {book.leaf:g} mm" if book.spine is None else ""
        yield Finding("spine", 1, f"{words} {spine:.1f} mm{why}")
    if abs(trim.height * POINT - book.height) > NEAR:
        words = f"the cover is {trim.height * POINT:.1f} mm high, the book {book.height:.1f} mm"
        yield Finding("spine", 1, words)


def check_sides(file: FinishedFile) -> Iterator[Finding]:
    """A sheet without its other side."""
    if len(file.leaves) % 2:
        words = f"found {len(file.leaves)} sides, expected two for each sheet"
        yield Finding("sides", 0, words)


def check_count(file: FinishedFile, book: Bound) -> Iterator[Finding]:
    """Sheets that are not as many as the pages of a book take, four to each."""
    most = book.signature or book.pages
    gatherings = [min(most, book.pages - at) for at in range(0, book.pages, most)]
    wanted, sides = sum(-(-pages // 4) * 2 for pages in gatherings), len(file.leaves)
    if sides != wanted:
        words = f"found {sides} sides, expected {wanted} for {book.pages} pages"
        yield Finding("sides", 0, words)
