"""The reasons for what a supposition finds: all that it rests on, and nothing else."""

from collections.abc import Iterable
from typing import Final, TypeAlias

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, every_digit
from verify.walk.facts.cells import Candidate, Cells, cells_of
from verify.walk.facts.step import Aside, Because, Consequence, House, Link
from verify.walk.suppose.pushing import Pushes
from verify.walk.suppose.supposing import Confined, Conflict, Placed, RuledOut, Struck, Supposition

EVERYTHING: Final[Mask] = -1

Asides: TypeAlias = "dict[int, tuple[Conflict, Grounds]]"
"""What refutes candidates that are supposed in turn, by event: the same for all contradictions."""


class Grounds:
    """What led to one finding of a supposition, traced back to what is supposed.

    `cells` are those whose marks on the sheet count, `looked_at` the digits that count in each of
    them. Each removal that counts has a first event behind it, and an event is found in the
    earliest round possible, so the way back is short.
    """

    def __init__(self, supposed: Supposition, asides: "Asides | None" = None) -> None:
        self.cells: set[Cell] = {supposed.cell}
        self.houses: dict[House, None] = {}
        self.links: dict[Link, None] = {}
        self._events = supposed.events
        self._start = supposed.start
        self._notes = supposed.notes
        self._gone = supposed.gone
        self.looked_at: dict[Cell, Mask] = {}
        self._needed: set[int] = set()
        self._struck: set[tuple[int, Candidate]] = set()
        self._ruled_out: dict[int, tuple[Conflict, Grounds]] = {}
        self._asides: Asides = {} if asides is None else asides

    @property
    def chain(self) -> tuple[Consequence, ...]:
        """The digits placed on the way, the supposed one first."""
        events = [self._events[index] for index in sorted(self._needed | {0})]
        return tuple(self._consequence(event) for event in events if isinstance(event, Placed))

    def _consequence(self, placed: Placed) -> Consequence:
        """A digit with the house or the marks by which it follows."""
        links: dict[Link, None] = {}
        if placed is not self._events[0] and placed.house is None:
            for digit in digits_of(self._start[placed.cell] & ~bit(placed.digit)):
                event = self._events[self._gone[placed.cell, digit]]
                if isinstance(event, Struck):
                    links.update(dict.fromkeys(event.striker.links[:1]))
        return Consequence(placed.cell, placed.digit, placed.house, tuple(links))

    @property
    def asides(self) -> tuple[Aside, ...]:
        """What is supposed in turn on the way, and refuted."""
        placed = [at for at in self._needed | {0} if isinstance(self._events[at], Placed)]
        return tuple(
            Aside(sum(place < at for place in placed), grounds.chain, conflict.dead_end)
            for at, (conflict, grounds) in sorted(self._ruled_out.items())
        )

    @property
    def length(self) -> tuple[int, int]:
        """How much there is to follow: the digits placed, and the cells that count."""
        asides = sum(len(each.chain) for each in self.asides)
        return len(self.chain) + asides, len(self.cells)

    @property
    def counts(self) -> tuple[tuple[Cell, Mask], ...]:
        """The digits that count, by cells, as far as they were missing before."""
        every = every_digit(self._notes.digits)
        found = ((cell, mask & every & ~self._start[cell]) for cell, mask in self.looked_at.items())
        return tuple(sorted((cell, mask) for cell, mask in found if mask))

    def because(self, digits: Mask) -> Because:
        """The parts of the puzzle that count, for a step about some digits."""
        cells = tuple(sorted(self.cells))
        return Because(cells, digits, tuple(self.houses), tuple(self.links))

    def of_conflict(self, conflict: Conflict) -> None:
        """Traces a contradiction."""
        if conflict.house is not None:
            self._of_house(conflict.house, conflict.digit)
        elif conflict.cell is not None:
            self._of_cell(conflict.cell, bit(conflict.digit) if conflict.digit else EVERYTHING)
        if conflict.event is not None:
            self._of_event(conflict.event)

    def of_removed(self, cell: Cell, digit: int) -> None:
        """Traces why a digit leaves a cell."""
        index = self._gone[cell, digit]
        event = self._events[index]
        if isinstance(event, Confined):
            self._of_sight(cells_of(event.spots), cell)
        elif isinstance(event, Placed) and event.cell != cell:
            self._of_sight((event.cell,), cell)
        if isinstance(event, Struck):
            self._of_struck(index, event, (cell, digit))
        else:
            self._of_event(index)

    def _of_struck(self, index: int, event: Struck, candidate: Candidate) -> None:
        """Traces what pushes a digit out of a cell: no more of the others than it takes."""
        if (index, candidate) in self._struck:
            return
        self._struck.add((index, candidate))
        self._needed.add(index)
        self.links.update(dict.fromkeys(event.striker.links))
        self.houses.update(dict.fromkeys(event.striker.houses))
        held = self._held(event)
        pushes = self._notes.once(Pushes)
        for cell, mask in pushes.of(event.striker, held, candidate).items():
            self._of_cell(cell, mask, event.since)

    def _held(self, event: Struck) -> dict[Cell, Mask]:
        """What the cells of a striker hold when it strikes."""
        held = {}
        for cell in event.striker.cells:
            held[cell] = self._start[cell]
            for digit in digits_of(self._start[cell]):
                gone = self._gone.get((cell, digit))
                if gone is not None and gone < event.since:
                    held[cell] &= ~bit(digit)
        return held

    def _of_sight(self, ones: Iterable[Cell], other: Cell) -> None:
        houses, links = self._notes.sights(ones, (other,))
        self.houses.update(dict.fromkeys(houses))
        self.links.update(dict.fromkeys(links))

    def _of_event(self, index: int) -> None:
        if index in self._needed:
            return
        self._needed.add(index)
        event = self._events[index]
        if isinstance(event, Confined):
            self._of_house(event.house, event.digit, event.spots, event.since)
        elif isinstance(event, RuledOut):
            self._of_ruled_out(index, event)
        elif isinstance(event, Struck):
            # What a mark strikes is traced digit by digit.
            return
        elif event.house is not None:
            self._of_house(event.house, event.digit, 1 << event.cell)
        elif index:
            self._of_cell(event.cell, ~bit(event.digit))

    def _of_ruled_out(self, index: int, event: RuledOut) -> None:
        """Traces what is refuted in turn: its own reasons, and what they find struck already."""
        if index not in self._asides:
            event.supposed.follow()
            self._asides[index] = shortest(event.supposed)
        self._ruled_out[index] = self._asides[index]
        _, grounds = self._asides[index]
        self.houses.update(grounds.houses)
        self.links.update(grounds.links)
        for cell, mask in grounds.looked_at.items():
            self._of_cell(cell, mask, event.since)

    def _of_cell(self, cell: Cell, mask: Mask, since: int | None = None) -> None:
        """Traces some digits that have left a cell, by the events before `since`."""
        self.cells.add(cell)
        self.looked_at[cell] = self.looked_at.get(cell, 0) | mask
        for digit in digits_of(self._start[cell] & mask):
            index = self._gone.get((cell, digit))
            if index is not None and (since is None or index < since):
                self.of_removed(cell, digit)

    def _of_house(
        self, house: House, digit: int, spots: Cells = 0, since: int | None = None
    ) -> None:
        """Traces why a digit has no place in a house but some spots."""
        self.houses[house] = None
        for cell in house.cells:
            if not spots >> cell & 1:
                self._of_cell(cell, bit(digit), since)


def shortest(supposed: Supposition) -> tuple[Conflict, Grounds]:
    """The contradiction to which the fewest digits lead, and what led to it."""
    asides: Asides = {}
    told = [(conflict, _traced(supposed, conflict, asides)) for conflict in supposed.conflicts]
    return min(told, key=lambda each: each[1].length)


def _traced(supposed: Supposition, conflict: Conflict, asides: Asides) -> Grounds:
    grounds = Grounds(supposed, asides)
    grounds.of_conflict(conflict)
    return grounds
