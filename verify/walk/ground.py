"""What never changes on a sheet, laid out so that much can be supposed on it quickly."""

from collections.abc import Iterable, Iterator, Sequence
from functools import reduce
from operator import itemgetter, or_
from typing import TYPE_CHECKING, Final, TypeAlias

from verify.pencil import Pencil, Strike, digits_of
from verify.rules.apart import Apart
from verify.walk.step import House, Link

if TYPE_CHECKING:
    from verify.walk.notes import Cells

Counts: TypeAlias = int
"""How many places a digit has in each house: fields of a whole number, one a house."""

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


class Tally:
    """Counts the places of a digit in all houses at once.

    Every house has a field wide enough for as many places as there are digits, and above it a
    bit that stays clear: the guard. `of_cell` has a one for each house of a cell, `guards_of` its
    guard.
    """

    def __init__(self, digits: int, cells: int, houses: Sequence[tuple[House, "Cells"]]) -> None:
        self._houses = tuple(house for house, _ in houses)
        self._width = digits.bit_length() + 1
        self._ones = sum(1 << self._width * number for number in range(len(houses)))
        self._guards = self._ones << self._width - 1
        self.of_cell = [
            sum(
                1 << self._width * number
                for number, (_, within) in enumerate(houses)
                if within >> cell & 1
            )
            for cell in range(cells)
        ]
        self.guards_of = [ones << self._width - 1 for ones in self.of_cell]

    def of_cells(self, cells: "Cells") -> Counts:
        """How many of some cells each house has."""
        return sum(self.of_cell[cell] for cell in digits_of(cells))

    def guards_of_cells(self, cells: "Cells") -> Counts:
        """The guards of all houses of some cells."""
        return reduce(or_, (self.guards_of[cell] for cell in digits_of(cells)), 0)

    def none_and_one(self, counts: Counts) -> tuple[Counts, Counts]:
        """The guards of the houses with no place, and of those with one."""
        guarded = counts | self._guards
        any_place = guarded - self._ones
        two_places = any_place - self._ones
        return self._guards & ~any_place, self._guards & any_place & ~two_places

    def houses(self, guards: Counts) -> Iterator[House]:
        """The houses of some guards."""
        return (self._houses[place // self._width] for place in digits_of(guards))


class Ground:
    """Who sees whom, the houses that hold every digit, and the marks of rules.

    Marks that only keep cells apart are left out: their cells see each other.
    """

    def __init__(
        self, peers: Sequence["Cells"], tally: Tally, links: Iterable[tuple[Link, "Cells"]]
    ) -> None:
        self.peers = peers
        self.tally = tally
        self._speakers = tuple(
            Speaker(link, cells) for link, cells in links if not isinstance(link.constraint, Apart)
        )

    def speaking(self, changed: "Cells") -> list[Speaker]:
        """The marks that have any of some cells among theirs."""
        return [speaker for speaker in self._speakers if speaker.cells & changed]
