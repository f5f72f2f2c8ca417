"""What never changes on a sheet, laid out so that much can be supposed on it quickly."""

from collections.abc import Iterable, Iterator, Sequence
from operator import itemgetter
from typing import TYPE_CHECKING, Final

from verify.pencil import Pencil, Strike
from verify.rules.apart import Apart
from verify.walk.step import House, Link

if TYPE_CHECKING:
    from verify.walk.notes import Cells

MOST_REMEMBERED: Final = 20_000
"""Looks at a mark whose strikes are kept; then it is forgotten, and remembered anew."""


class Speaker:
    """A mark of a rule on its cells; it remembers what it strikes, by what these cells hold."""

    def __init__(self, link: Link, cells: "Cells") -> None:
        self.link = link
        self.cells = cells
        self._held_in = itemgetter(*link.constraint.cells)
        self._known: dict[object, tuple[Strike, ...]] = {}

    def strikes(self, pencil: Pencil) -> tuple[Strike, ...]:
        """All that it strikes by itself."""
        held = self._held_in(pencil)
        known = self._known.get(held)
        if known is None:
            if len(self._known) >= MOST_REMEMBERED:
                self._known.clear()
            known = self._known[held] = tuple(self.link.constraint.strikes(pencil))
        return known


class Ground:
    """Who sees whom, the houses that hold every digit, and the marks of rules.

    Marks that only keep cells apart are left out: their cells see each other.
    """

    def __init__(
        self,
        peers: "Sequence[Cells]",
        houses: "Sequence[tuple[House, Cells]]",
        links: "Iterable[tuple[Link, Cells]]",
    ) -> None:
        self.peers = peers
        self.houses = houses
        self._speakers = tuple(
            Speaker(link, cells) for link, cells in links if not isinstance(link.constraint, Apart)
        )

    def speaking(self, changed: "Cells") -> Iterator[Speaker]:
        """The marks that have any of some cells among theirs."""
        return (speaker for speaker in self._speakers if speaker.cells & changed)
