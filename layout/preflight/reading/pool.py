"""Things that are alike, kept once.

The lines of grids, and the places of digits in them, are the same on page after page, and a book
has thousands of pages' worth of both.
"""

from typing import Any, Final, TypeVar

T = TypeVar("T")

MOST_KEPT: Final = 500_000
"""Things that are kept; of more each is by itself."""


class Pool:
    """What was met so far, of one kind."""

    def __init__(self) -> None:
        self._known: dict[Any, Any] = {}

    def one(self, thing: T) -> T:
        """The first of those that are equal to a thing."""
        known: T | None = self._known.get(thing)
        if known is None:
            if len(self._known) < MOST_KEPT:
                self._known[thing] = thing
            return thing
        return known
