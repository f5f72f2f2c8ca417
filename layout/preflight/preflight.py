"""All checks of a finished file, in their order."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Final

from layout.preflight.checks.bar_code import check_bar_code
from layout.preflight.checks.bound import check_sides
from layout.preflight.checks.boxes import check_boxes
from layout.preflight.checks.content import check_content
from layout.preflight.checks.contents import check_contents, entries_of
from layout.preflight.checks.cut import check_cut
from layout.preflight.checks.finding import Finding
from layout.preflight.checks.fonts import check_fonts
from layout.preflight.checks.hidden import check_hidden
from layout.preflight.checks.inks import check_inks
from layout.preflight.checks.labels import check_labels
from layout.preflight.checks.links import check_links
from layout.preflight.checks.margin import check_margin
from layout.preflight.checks.metadata import check_metadata
from layout.preflight.checks.parity import check_parity
from layout.preflight.checks.references import check_references
from layout.preflight.checks.small import check_images, check_lines, check_type
from layout.preflight.checks.standard import check_standard
from layout.preflight.kinds import Kind, kind_of
from layout.preflight.reading.finished import FinishedFile

LEAST_TYPE: Final = 6.0
LEAST_LABEL: Final = 5.0
LEAST_LARGE_TYPE: Final = 18.0
"""Points of the smallest letters, of the labels of grids, and of both in large print (UKAAF G003).
"""

SAYINGS: Final = ("page {page}", "Seite {page}")
"""How a page is named in a sentence, where no job says its language."""


@dataclass(frozen=True, slots=True)
class Terms:
    """What a file is held to: letters of large print, how pages are named in its language, the
    standard that it has to claim, and what kind of file it is, if not what it looks like.
    """

    large_print: bool = False
    sayings: Collection[str] = SAYINGS
    standard: str = ""
    kind: Kind | None = None

    @property
    def least_type(self) -> float:
        """Points of the smallest letters."""
        return LEAST_LARGE_TYPE if self.large_print else LEAST_TYPE

    @property
    def least_label(self) -> float:
        """Points of the smallest labels of grids: sums, signs and clues."""
        return LEAST_LARGE_TYPE if self.large_print else LEAST_LABEL


def preflight(file: FinishedFile, terms: Terms) -> Iterator[Finding]:
    """What a press, a binder or a reader would refuse of a file by itself."""
    kind = terms.kind or kind_of(file)
    yield from check_content(file)
    yield from check_boxes(file)
    yield from check_fonts(file)
    yield from check_inks(file)
    yield from check_lines(file)
    yield from check_type(file, terms.least_type, terms.least_label)
    yield from check_hidden(file)
    if kind == "pages":
        yield from check_margin(file)
    elif kind != "picture":
        yield from check_cut(file, folded=kind == "sheets")
    yield from check_images(file)
    if kind == "pages":
        yield from _numbered(file, terms)
    elif kind == "cover":
        yield from check_bar_code(file)
    elif kind == "sheets":
        yield from check_sides(file)
    yield from check_metadata(file)
    yield from check_standard(file, terms.standard)


def _numbered(file: FinishedFile, terms: Terms) -> Iterator[Finding]:
    """What pages say of one another."""
    entries = entries_of(file)
    yield from check_parity(file, entries)
    yield from check_labels(file)
    yield from check_links(file, terms.sayings)
    yield from check_references(file, terms.sayings)
    yield from check_contents(file, entries)
