"""The sheet that wraps around a book: back, spine and front side by side."""

from dataclasses import dataclass
from typing import Final

from layout.pages.common.format import Trim

LEAST_BLEED: Final = 3.0
"""A cover is printed to its edges, whatever the pages are (common practice: 3 mm)."""


@dataclass(frozen=True, slots=True)
class Wrap:
    """The measures of a cover in millimetres, from the upper left corner of its trim."""

    page: Trim
    spine: float

    @property
    def bleed(self) -> float:
        """How far the picture goes over the trim."""
        return max(self.page.bleed, LEAST_BLEED)

    @property
    def width(self) -> float:
        """Of back, spine and front together."""
        return 2 * self.page.width + self.spine

    @property
    def height(self) -> float:
        """Of the book."""
        return self.page.height

    @property
    def folds(self) -> tuple[float, float]:
        """Where the spine begins and where the front does."""
        return self.page.width, self.page.width + self.spine


def spine_width(pages: int, caliper: float) -> float:
    """How thick so many pages are, two to a leaf, on paper that thick: pages / 2 x caliper.

    The same as the trade's pages / PPI, as PPI is 2 / caliper. What the cover's own board adds
    is left to the printer.
    """
    return pages / 2 * caliper
