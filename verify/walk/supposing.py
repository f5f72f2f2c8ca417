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
from verify.pencil import Mask, Strike, bit, digits_of, highest
from verify.walk.ground import Ground
from verify.walk.listed import Listed
from verify.walk.notes import Candidate, Cells, Notes, cells_of
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

    link: Link | Listed
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


@dataclass(slots=True)
class Supposition:
    """One candidate supposed on a copy of the sheet.

    `events` are all consequences in the order in which they are found, the supposed digit first;
    `removals` what each of them takes. `conflicts` are the contradictions of the last round:
    without any, and when nothing is `moving` any more, there is nothing more to find.
    """

    notes: Notes
    cell: Cell
    digit: int
    pencil: list[Mask] = field(init=False)
    where: list[Cells] = field(init=False)
    placed: Cells = field(init=False)
    rounds: int = field(init=False)
    events: list[Event] = field(init=False)
    removals: list[Removal] = field(init=False)
    conflicts: list[Conflict] = field(init=False)
    _ground: Ground = field(init=False)
    _fresh: list[int] = field(init=False)
    _lost: list[Cells] = field(init=False)
    _narrow: Cells = field(init=False)
    _stirred: Cells = field(init=False)

    def __post_init__(self) -> None:
        self.pencil = list(self.notes.pencil)
        self.where = list(self.notes.where)
        self.placed = self.notes.placed
        self.rounds = 0
        self.events = [Placed(self.cell, self.digit)]
        self.removals = []
        self.conflicts = []
        self._ground = self.notes.ground
        self._fresh = [0]
        self._lost = [0] * len(self.where)
        self._narrow = 0
        self._stirred = 0

    @property
    def moving(self) -> bool:
        """Whether another round can find more."""
        return not self.conflicts and bool(self._fresh or self._stirred)

    @property
    def placements(self) -> Iterator[Candidate]:
        """The digits placed so far, with their cells."""
        return ((each.cell, each.digit) for each in self.events if isinstance(each, Placed))

    @property
    def is_open(self) -> bool:
        """Whether the sheet leaves it open if the cell holds the digit."""
        notes = self.notes
        return bool(notes.where[self.digit] & ~notes.placed & 1 << self.cell)

    def follow(self) -> None:
        """Goes on to a contradiction, or until nothing more follows."""
        while self.moving:
            self.advance()

    def catch_up(self) -> None:
        """Takes over what has left the sheet since; the events no longer say why things leave."""
        self.placed |= self.notes.placed
        for digit, cells in enumerate(self.notes.where):
            gone = self.where[digit] & ~cells
            if gone:
                self._remove(0, digit, gone)

    def advance(self) -> None:
        """One more round of consequences."""
        self.rounds += 1
        for index in self._fresh:
            self._settle(index)
        self._look_for_empty_cells()
        if not self.conflicts:
            self._let_marks_strike()
            self._look_for_empty_cells()
        if not self.conflicts:
            self._look_for_singles()
            self._lost = [0] * len(self.where)
            self._narrow = 0

    def _settle(self, index: int) -> None:
        """Writes a placed digit in; it leaves all cells that see it."""
        event = self.events[index]
        assert isinstance(event, Placed)  # noqa: S101 - only placements are settled
        cell, digit = event.cell, event.digit
        if not self.pencil[cell] >> digit & 1:
            self.conflicts.append(Conflict(cell, digit, event=index))
            return
        self.placed |= 1 << cell
        for other in digits_of(self.pencil[cell] & ~bit(digit)):
            self._remove(index, other, 1 << cell)
        seen = self._ground.peers[cell] & self.where[digit]
        if seen:
            self._remove(index, digit, seen)

    def _remove(self, index: int, digit: int, cells: Cells) -> None:
        """Takes a digit from cells that hold it, and notes down by which event."""
        self.removals.append((index, digit, cells))
        self.where[digit] ^= cells
        self._lost[digit] |= cells
        self._stirred |= cells
        pencil, keep = self.pencil, ~bit(digit)
        while cells:
            low = cells & -cells
            cell = low.bit_length() - 1
            left = pencil[cell] = pencil[cell] & keep
            if not left & (left - 1):
                self._narrow |= low
            cells ^= low

    def _let_marks_strike(self) -> None:
        """All that marks of rules strike from the marks as they stand now."""
        since = len(self.events)
        speaking = self._ground.speaking(self._stirred)
        found = [(speaker.link, speaker.strikes(self.pencil)) for speaker in speaking]
        self._stirred = 0
        for link, strikes in found:
            for strike in strikes:
                self._strike(link, strike, since)

    def _strike(self, link: Link | Listed, strike: Strike, since: int) -> None:
        """Takes what of a strike still stands."""
        standing = [(cell, mask & self.pencil[cell]) for cell, mask in strike.removes]
        if any(mask for _, mask in standing):
            for cell, mask in standing:
                for digit in digits_of(mask):
                    self._remove(len(self.events), digit, 1 << cell)
            self.events.append(Struck(link, strike.because, since))

    def _look_for_empty_cells(self) -> None:
        """Cells that have nothing left."""
        for cell in cells_of(self._narrow):
            if not self.pencil[cell]:
                self.conflicts.append(Conflict(cell))

    def _look_for_singles(self) -> None:
        """The digits that must be placed in the next round, or have no place left."""
        found: dict[Cell, Placed] = {}
        for cell in cells_of(self._narrow & ~self.placed):
            found[cell] = Placed(cell, highest(self.pencil[cell]))
        for digit, lost in enumerate(self._lost):
            if lost:
                self._look_for_places(digit, lost, found)
        self._fresh = list(range(len(self.events), len(self.events) + len(found)))
        self.events += found.values()

    def _look_for_places(self, digit: int, lost: Cells, found: dict[Cell, Placed]) -> None:
        """The houses with one place left for a digit, or none, where it has lost some."""
        where, placed = self.where[digit], self.placed
        for house, within in self._ground.houses:
            if lost & within:
                spots = where & within
                if not spots:
                    self.conflicts.append(Conflict(digit=digit, house=house))
                elif not spots & (spots - 1 | placed):
                    spot = highest(spots)
                    found.setdefault(spot, Placed(spot, digit, house))
