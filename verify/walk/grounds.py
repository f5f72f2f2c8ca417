"""The reasons for what a supposition finds: all that it rests on, and nothing else."""

from collections.abc import Iterable
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of
from verify.walk.cells import Cells, cells_of
from verify.walk.step import Because, Consequence, House, Link
from verify.walk.supposing import Confined, Conflict, Placed, Struck, Supposition

EVERYTHING: Final[Mask] = -1


class Grounds:
    """What led to one finding of a supposition, traced back to what is supposed.

    `cells` are those whose marks on the sheet count. Each removal that counts has a first event
    behind it, and an event is found in the earliest round possible, so the way back is short.
    """

    def __init__(self, supposed: Supposition) -> None:
        self.cells: set[Cell] = {supposed.cell}
        self.houses: dict[House, None] = {}
        self.links: dict[Link, None] = {}
        self._supposed = supposed
        self._notes = supposed.notes
        self._gone = supposed.gone
        self._needed: set[int] = set()

    @property
    def chain(self) -> tuple[Consequence, ...]:
        """The digits placed on the way, the supposed one first."""
        events = [self._supposed.events[index] for index in sorted(self._needed | {0})]
        return tuple(
            Consequence(event.cell, event.digit) for event in events if isinstance(event, Placed)
        )

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
        event = self._supposed.events[index]
        if isinstance(event, Confined):
            self._of_sight(cells_of(event.spots), cell)
        elif isinstance(event, Placed) and event.cell != cell:
            self._of_sight((event.cell,), cell)
        self._of_event(index)

    def _of_sight(self, ones: Iterable[Cell], other: Cell) -> None:
        houses, links = self._notes.sights(ones, (other,))
        self.houses.update(dict.fromkeys(houses))
        self.links.update(dict.fromkeys(links))

    def _of_event(self, index: int) -> None:
        if index in self._needed:
            return
        self._needed.add(index)
        event = self._supposed.events[index]
        if isinstance(event, Struck):
            self.links.update(dict.fromkeys(event.voice.links))
            self.houses.update(dict.fromkeys(event.voice.houses))
            for cell in event.cells:
                self._of_cell(cell, EVERYTHING, event.since)
        elif isinstance(event, Confined):
            self._of_house(event.house, event.digit, event.spots, event.since)
        elif event.house is not None:
            self._of_house(event.house, event.digit, 1 << event.cell)
        elif index:
            self._of_cell(event.cell, ~bit(event.digit))

    def _of_cell(self, cell: Cell, mask: Mask, since: int | None = None) -> None:
        """Traces some digits that have left a cell, by the events before `since`."""
        self.cells.add(cell)
        for digit in digits_of(self._notes.pencil[cell] & mask):
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
