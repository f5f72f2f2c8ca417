"""Which page stands where on the sheets of a folded booklet.

A sheet is printed on both sides, two pages beside each other, turned over its short edge, and
folded once. Sheets that lie in one another are a gathering, stapled or sewn through the fold.
"""

from dataclasses import dataclass
from typing import Final

LEAST: Final = 4
"""The pages of one sheet: every gathering has a multiple of them."""


@dataclass(frozen=True, slots=True)
class Spread:
    """One side of a sheet: its pages by their numbers from 1, None where it is blank."""

    left: int | None
    right: int | None


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of a gathering, both from 0; the outermost sheet is the first."""

    gathering: int
    index: int
    front: Spread
    back: Spread

    def creep(self, caliper: float) -> float:
        """How far its pages move to the fold, on paper that thick.

        The sheets around it push it out by their thickness, and the knife would take that much
        of its outer margin.
        """
        return self.index * caliper


def gathering_sizes(pages: int, signature: int | None = None) -> list[int]:
    """The pages of each gathering, blanks included: all in one, or so many in each but the last.

    Blanks fill the last sheet.
    """
    padded = -(-pages // LEAST) * LEAST
    size = signature or padded
    return [min(size, padded - start) for start in range(0, padded, size)]


def sheets(pages: int, signature: int | None = None) -> list[Sheet]:
    """All sheets in the order of their gatherings, each from the outside in.

    `signature` is a multiple of 4. In a gathering of n pages that begins after page p, sheet s
    has p + n - 2s and p + 2s + 1 on its front, p + 2s + 2 and p + n - 2s - 1 on its back.
    """
    found: list[Sheet] = []
    before = 0
    for number, size in enumerate(gathering_sizes(pages, signature)):
        for index in range(size // LEAST):
            low, high = before + 2 * index + 1, before + size - 2 * index
            front = Spread(_page(high, pages), _page(low, pages))
            back = Spread(_page(low + 1, pages), _page(high - 1, pages))
            found.append(Sheet(number, index, front, back))
        before += size
    return found


def _page(number: int, pages: int) -> int | None:
    return number if number <= pages else None
