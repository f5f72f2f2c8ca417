"""What never changes on a sheet, laid out so that much can be supposed on it quickly."""

from collections.abc import Iterable, Iterator, Sequence
from operator import itemgetter
from typing import TYPE_CHECKING, Final

from verify.pencil import Pencil, Strike
from verify.rules.apart import Apart
from verify.walk.listed import Listed
from verify.walk.step import House, Link

if TYPE_CHECKING:
    from verify.walk.notes import Cells

MOST_REMEMBERED: Final = 20_000
"""Looks at a mark whose strikes are kept; then it is forgotten, and remembered anew."""


class Speaker:
    """A mark of a rule on its cells, or a list of the ways to fill some cells.

    It remembers what it strikes, by what these cells hold.
    """

    def __init__(self, link: Link | Listed, cells: "Cells") -> None:
        self.link = link
        self.cells = cells
        self._speech = link.constraint if isinstance(link, Link) else link
        self._held_in = itemgetter(*self._speech.cells)
        self._known: dict[object, tuple[Strike, ...]] = {}

    def strikes(self, pencil: Pencil) -> tuple[Strike, ...]:
        """All that it strikes by itself."""
        held = self._held_in(pencil)
        known = self._known.get(held)
        if known is None:
            if len(self._known) >= MOST_REMEMBERED:
                self._known.clear()
            known = self._known[held] = tuple(self._speech.strikes(pencil))
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
        listed: "Iterable[tuple[Listed, Cells]]",
    ) -> None:
        self.peers = peers
        self.houses = houses
        self._speakers = tuple(
            Speaker(link, cells) for link, cells in links if not isinstance(link.constraint, Apart)
        ) + tuple(Speaker(ways, cells) for ways, cells in listed)

    def speaking(self, changed: "Cells") -> Iterator[Speaker]:
        """The marks that have any of some cells among theirs."""
        return (speaker for speaker in self._speakers if speaker.cells & changed)
