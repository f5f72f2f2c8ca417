"""What a finished file is: pages of a book, its cover, sheets of several pages, or loose leaves."""

from collections.abc import Mapping
from typing import Final, Literal, TypeAlias

from layout.preflight.checks.finding import CHECKS
from layout.preflight.reading.finished import FinishedFile, Leaf

Kind: TypeAlias = Literal["pages", "cover", "sheets", "leaves", "picture"]

WIDE: Final = 1.15
"""How many times as wide as high a cover is at least, or a sheet with two pages side by side."""

LEAST_SLUG: Final = 9.0
"""Points around the bleed in which a printer's marks stand."""

_ALWAYS: Final = (
    *("content", "boxes", "fonts", "colours", "lines", "type", "hidden", "images"),
    *("metadata", "standard"),
)

CHECKS_OF: Final[Mapping[Kind, tuple[str, ...]]] = {
    "pages": tuple(CHECKS),
    "cover": (*_ALWAYS, "margin", "bar code", "spine"),
    "sheets": (*_ALWAYS, "margin", "sides"),
    "leaves": (*_ALWAYS, "margin"),
    "picture": _ALWAYS,
}
"""What is asked of each kind; numbers of pages and cross references of pages alone.

Leaves are a worksheet's, which are bound by nobody; a picture is placed on somebody's page.
"""


def kind_of(file: FinishedFile) -> Kind:
    """What a file looks like: a cover is one wide sheet that bleeds, a picture one page that does
    not, and printers' sheets are wide with marks around them. Loose leaves look like pages.
    """
    alone = len(file.leaves) == 1
    if alone and not _bleeds(file.leaves[0]):
        return "picture"
    if not all(_is_wide(leaf) for leaf in file.leaves):
        return "pages"
    if alone:
        return "cover"
    return "sheets" if all(_has_slug(leaf) for leaf in file.leaves) else "pages"


def _is_wide(leaf: Leaf) -> bool:
    return leaf.trim.width >= WIDE * leaf.trim.height


def _bleeds(leaf: Leaf) -> bool:
    return leaf.bleed.width > leaf.trim.width and leaf.bleed.height > leaf.trim.height


def _has_slug(leaf: Leaf) -> bool:
    return leaf.boxes["Media"].holds(leaf.bleed.grown(LEAST_SLUG))
