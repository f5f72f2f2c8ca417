"""Supposing that a cell holds a digit, and following what comes of it.

Consequences are found in rounds: all that follows at once, then all that follows from that. So
what a round finds, and in which round a contradiction shows, does not depend on the order of
cells, digits and marks. Every removal is noted down; `verify.walk.grounds` reads the reasons from
these notes where they are asked for.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple, TypeAlias

from verify.board import Cell
from verify.pencil import Mask, Strike, digits_of, highest
from verify.walk.ground import Counts
from verify.walk.notes import Candidate, Cells, Notes
from verify.walk.step import House, Link


class Placed(NamedTuple):
    """A digit that must stand in a cell: nothing else is left there, or no other place in a house.

    For the digit that is supposed there is no house either.
    """

    cell: Cell
    digit: int
    house: House | None = None


class Struck(NamedTuple):
    """What a mark of a rule strikes for what some cells hold after the events before `since`."""

    link: Link
    cells: tuple[Cell, ...]
    since: int


class Conflict(NamedTuple):
    """A cell with nothing left, or with a digit that it must and can't take; or a digit with no
    place left in a house. `event` is what places the digit in the cell.
    """

    cell: Cell | None = None
    digit: int = 0
    house: House | None = None
    event: int | None = None


Event: TypeAlias = Placed | Struck

Removal: TypeAlias = tuple[int, int, Cells]
"""An event by its number, and a digit that it takes from some cells."""


class Start:
    """The sheet as it stands, and as suppositions start from it.

    `counts[d]` are the places of digit d by houses, `done[d]` guards the houses that have it.
    """

    def __init__(self, notes: Notes) -> None:
        self.notes = notes
        self.ground = notes.ground
        self.pencil = tuple(notes.pencil)
        self.where = tuple(notes.where)
        self.placed = notes.placed
        tally = self.ground.tally
        self.counts = tuple(map(tally.of_cells, self.where))
        self.done = tuple(tally.guards_of_cells(cells & self.placed) for cells in self.where)


@dataclass(slots=True)
class Supposition:
    """One candidate supposed on a copy of the sheet.

    `events` are all consequences in the order in which they are found, the supposed digit first;
    `removals` what each of them takes. `conflicts` are the contradictions of the last round:
    without any, and when nothing is `moving` any more, there is nothing more to find.
    """

    start: Start
    cell: Cell
    digit: int
    rounds: int = field(init=False, default=0)
    events: list[Event] = field(init=False)
    removals: list[Removal] = field(init=False)
    conflicts: list[Conflict] = field(init=False)
    pencil: list[Mask] = field(init=False)
    where: list[Cells] = field(init=False)
    _counts: list[Counts] = field(init=False)
    _done: list[Counts] = field(init=False)
    _placed: Cells = field(init=False)
    _fresh: list[tuple[int, Placed]] = field(init=False)
    _lost: Mask = field(init=False, default=0)
    _narrow: Cells = field(init=False, default=0)
    _stirred: Cells = field(init=False, default=0)

    def __post_init__(self) -> None:
        start = self.start
        supposed = Placed(self.cell, self.digit)
        self.events = [supposed]
        self.removals = []
        self.conflicts = []
        self.pencil = list(start.pencil)
        self.where = list(start.where)
        self._counts = list(start.counts)
        self._done = list(start.done)
        self._placed = start.placed
        self._fresh = [(0, supposed)]

    @property
    def moving(self) -> bool:
        """Whether another round can find more."""
        return not self.conflicts and bool(self._fresh or self._stirred)

    @property
    def placements(self) -> Iterator[Candidate]:
        """The digits placed so far, with their cells."""
        return (each[:2] for each in self.events if isinstance(each, Placed))

    def follow(self) -> None:
        """Goes on to a contradiction, or until nothing more follows."""
        while self.moving:
            self.advance()

    def catch_up(self, now: Start) -> None:
        """Takes over what has left the sheet since; the events no longer say why things leave."""
        for digit, cells in enumerate(now.where):
            gone = self.where[digit] & ~cells
            if gone:
                self._remove(0, digit, gone)

    def advance(self) -> None:
        """One more round of consequences."""
        self.rounds += 1
        for index, placed in self._fresh:
            self._settle(index, placed.cell, placed.digit)
        self._look_for_empty_cells()
        if not self.conflicts:
            self._let_marks_strike()
            self._look_for_empty_cells()
        if not self.conflicts:
            self._look_for_singles()

    def _settle(self, index: int, cell: Cell, digit: int) -> None:
        """Writes a placed digit in; it leaves all cells that see it."""
        held, ground = self.pencil[cell], self.start.ground
        if not held >> digit & 1:
            self.conflicts.append(Conflict(cell, digit, event=index))
            return
        self._placed |= 1 << cell
        self._done[digit] |= ground.tally.guards_of[cell]
        for other in digits_of(held ^ 1 << digit):
            self._remove(index, other, 1 << cell)
        seen = ground.peers[cell] & self.where[digit]
        if seen:
            self._remove(index, digit, seen)

    def _remove(self, index: int, digit: int, cells: Cells) -> None:
        """Takes a digit from cells that hold it, and notes down by which event."""
        self.removals.append((index, digit, cells))
        self.where[digit] ^= cells
        self._lost |= 1 << digit
        self._stirred |= cells
        pencil, keep = self.pencil, ~(1 << digit)
        counts, of_cell = self._counts[digit], self.start.ground.tally.of_cell
        while cells:
            cell = cells.bit_length() - 1
            cells ^= 1 << cell
            counts -= of_cell[cell]
            left = pencil[cell] = pencil[cell] & keep
            if not left & (left - 1):
                self._narrow |= 1 << cell
        self._counts[digit] = counts

    def _let_marks_strike(self) -> None:
        """All that marks of rules strike from the marks as they stand now."""
        since = len(self.events)
        speaking = self.start.ground.speaking(self._stirred)
        found = [(speaker.link, speaker.strikes(self.pencil)) for speaker in speaking]
        self._stirred = 0
        for link, strikes in found:
            for strike in strikes:
                self._strike(link, strike, since)

    def _strike(self, link: Link, strike: Strike, since: int) -> None:
        """Takes what of a strike still stands."""
        index, before = len(self.events), len(self.removals)
        for cell, mask in strike.removes:
            for digit in digits_of(mask & self.pencil[cell]):
                self._remove(index, digit, 1 << cell)
        if len(self.removals) > before:
            self.events.append(Struck(link, strike.because, since))

    def _look_for_empty_cells(self) -> None:
        """Cells that have nothing left."""
        for cell in digits_of(self._narrow):
            if not self.pencil[cell]:
                self.conflicts.append(Conflict(cell))

    def _look_for_singles(self) -> None:
        """The digits that must be placed in the next round, or have no place left."""
        found: dict[Cell, Placed] = {}
        for cell in digits_of(self._narrow & ~self._placed):
            found[cell] = Placed(cell, highest(self.pencil[cell]))
        tally = self.start.ground.tally
        for digit in digits_of(self._lost):
            none, one = tally.none_and_one(self._counts[digit])
            for house in tally.houses(none):
                self.conflicts.append(Conflict(digit=digit, house=house))
            for house in tally.houses(one & ~self._done[digit]):
                (cell,) = (cell for cell in house.cells if self.pencil[cell] >> digit & 1)
                found.setdefault(cell, Placed(cell, digit, house))
        self._fresh = list(enumerate(found.values(), len(self.events)))
        self.events += found.values()
        self._lost = self._narrow = 0
