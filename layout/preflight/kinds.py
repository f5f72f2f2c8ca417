"""What a finished file is: a book's pages, its cover, or sheets with several pages on them."""

from collections.abc import Mapping
from typing import Final, Literal, TypeAlias

from layout.preflight.checks.finding import CHECKS
from layout.preflight.reading.finished import FinishedFile, Leaf

Kind: TypeAlias = Literal["pages", "cover", "sheets"]

WIDE: Final = 1.15
"""How many times as wide as high a cover is at least, or a sheet with two pages side by side."""

LEAST_SLUG: Final = 9.0
"""Points around the bleed in which a printer's marks stand."""

_ALWAYS: Final = (
    *("content", "boxes", "fonts", "colours", "lines", "type", "hidden", "margin", "images"),
    *("metadata", "standard"),
)

CHECKS_OF: Final[Mapping[Kind, tuple[str, ...]]] = {
    "pages": tuple(CHECKS),
    "cover": (*_ALWAYS, "bar code", "spine"),
    "sheets": (*_ALWAYS, "sides"),
}
"""What is asked of each kind; numbers of pages and cross references of pages alone."""


def kind_of(file: FinishedFile) -> Kind:
    """What a file looks like: a cover is one wide sheet, and printers' sheets are wide, too, with
    marks around them.
    """
    if not all(_is_wide(leaf) for leaf in file.leaves):
        return "pages"
    if len(file.leaves) == 1:
        return "cover"
    return "sheets" if all(_has_slug(leaf) for leaf in file.leaves) else "pages"


def _is_wide(leaf: Leaf) -> bool:
    return leaf.trim.width >= WIDE * leaf.trim.height


def _has_slug(leaf: Leaf) -> bool:
    return leaf.boxes["Media"].holds(leaf.bleed.grown(LEAST_SLUG))
