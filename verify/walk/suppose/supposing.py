"""Supposing that a cell holds a digit, and following what comes of it.

Consequences are found in rounds: all that follows at once, then all that follows from that. So
what a round finds, and in which round a contradiction shows, does not depend on the order of
cells, digits and marks. Every removal is noted down; `verify.walk.suppose.grounds` reads the
reasons from these notes where they are asked for.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple, TypeAlias

from verify.board import Cell
from verify.pencil import Mask, Strike, bit, digits_of, highest, is_single
from verify.walk.facts.cells import Candidate, Cells, cells_of
from verify.walk.facts.confined import confinements
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import DeadEnd, House
from verify.walk.ways.striker import Striker
from verify.walk.ways.strikers import strikers_of


class Placed(NamedTuple):
    """A digit that must stand in a cell: nothing else is left there, or no other place in a house.

    For the digit that is supposed there is no house either.
    """

    cell: Cell
    digit: int
    house: House | None = None


class Struck(NamedTuple):
    """What is struck for what some cells hold after the events before `since`."""

    striker: Striker
    cells: tuple[Cell, ...]
    since: int


class Confined(NamedTuple):
    """A digit that `spots` alone can still take in a house, after the events before `since`."""

    house: House
    digit: int
    spots: Cells
    since: int


class RuledOut(NamedTuple):
    """A candidate that is refuted where it is supposed in turn, after the events before `since`."""

    supposed: "Supposition"
    since: int


class Conflict(NamedTuple):
    """A cell with nothing left, or with a digit that it must and can't take; or a digit with no
    place left in a house. `event` is what places the digit in the cell.
    """

    cell: Cell | None = None
    digit: int = 0
    house: House | None = None
    event: int | None = None

    @property
    def dead_end(self) -> DeadEnd:
        """It as a step tells it."""
        return DeadEnd(self.cell, self.digit, self.house)


Event: TypeAlias = "Placed | Struck | Confined | RuledOut"

Gone: TypeAlias = dict[Candidate, int]
"""Each candidate that has left the sheet, and by which event, counted from 0."""


@dataclass(slots=True)
class Supposition:
    """One candidate supposed on a copy of the sheet.

    It is `watchful` where locked candidates count, too. Unless `with_lists`, only marks by
    themselves strike, no lists of ways: these rest on all that is missing from their cells.
    The sheet is that of the notes, or that of the supposition `within` which it is made, as they
    stand: `start` holds its marks.
    `events` are all consequences in the order in which they are found, the supposed digit first;
    `gone` what they take. `conflicts` are the contradictions of the last round:
    without any, and when nothing is `moving` any more, there is nothing more to find.
    """

    notes: Notes
    cell: Cell
    digit: int
    watchful: bool = False
    within: "Supposition | None" = None
    with_lists: bool = True
    start: tuple[Mask, ...] = field(init=False)
    rounds: int = field(init=False, default=0)
    events: list[Event] = field(init=False)
    gone: Gone = field(init=False)
    conflicts: list[Conflict] = field(init=False)
    pencil: list[Mask] = field(init=False)
    where: list[Cells] = field(init=False)
    placed: Cells = field(init=False)
    _fresh: list[tuple[int, Placed]] = field(init=False)
    _stirred: Cells = field(init=False, default=0)
    _lost: Mask = field(init=False, default=0)

    def __post_init__(self) -> None:
        supposed = Placed(self.cell, self.digit)
        self.events = [supposed]
        self.gone = {}
        self.conflicts = []
        sheet = self.within or self.notes
        self.start = tuple(sheet.pencil)
        self.pencil = list(sheet.pencil)
        self.where = list(sheet.where)
        self.placed = sheet.placed
        self._fresh = [(0, supposed)]

    @property
    def moving(self) -> bool:
        """Whether another round can find more."""
        return not self.conflicts and bool(self._fresh or self._stirred)

    def follow(self) -> None:
        """Goes on to a contradiction, or until nothing more follows."""
        while self.moving:
            self.advance()

    def advance(self) -> None:
        """One more round of consequences."""
        self.notes.deadline.check()
        self.rounds += 1
        for index, placed in self._fresh:
            self._settle(index, placed.cell, placed.digit)
        self._look_for_empty_cells()
        if not self.conflicts:
            self._let_marks_strike()
            if self.watchful:
                self._look_for_confined()
            self._look_for_empty_cells()
        if not self.conflicts:
            self._look_for_singles()

    def rule_out(self, candidates: Iterable[Candidate]) -> None:
        """Strikes candidates that are refuted where they are supposed in turn, all at once."""
        since = len(self.events)
        supposed = [Supposition(self.notes, *each, within=self) for each in candidates]
        for each in supposed:
            self._remove(len(self.events), each.digit, 1 << each.cell)
            self.events.append(RuledOut(each, since))

    def _settle(self, index: int, cell: Cell, digit: int) -> None:
        """Writes a placed digit in; it leaves all cells that see it."""
        if not self.pencil[cell] >> digit & 1:
            self.conflicts.append(Conflict(cell, digit, event=index))
            return
        self.placed |= 1 << cell
        for other in digits_of(self.pencil[cell] & ~bit(digit)):
            self._remove(index, other, 1 << cell)
        self._remove(index, digit, self.notes.peers[cell] & self.where[digit])

    def _remove(self, index: int, digit: int, cells: Cells) -> None:
        """Takes a digit from cells that hold it, and notes down by which event."""
        self.where[digit] &= ~cells
        self._stirred |= cells
        self._lost |= bit(digit)
        for cell in cells_of(cells):
            self.pencil[cell] &= ~bit(digit)
            self.gone[cell, digit] = index

    def _let_marks_strike(self) -> None:
        """All that rules strike from the marks as they stand now."""
        since, before, stirred = len(self.events), tuple(self.pencil), self._stirred
        self._stirred = 0
        for striker in strikers_of(self.notes).every:
            if striker.within & stirred and (self.with_lists or not striker.is_list):
                self.notes.deadline.check()
                for strike in striker.strikes(before):
                    self._strike(striker, strike, since)

    def _strike(self, striker: Striker, strike: Strike, since: int) -> None:
        """Takes what of a strike still stands."""
        index, before = len(self.events), len(self.gone)
        for cell, mask in strike.removes:
            for digit in digits_of(mask & self.pencil[cell]):
                self._remove(index, digit, 1 << cell)
        if len(self.gone) > before:
            self.events.append(Struck(striker, strike.because, since))

    def _look_for_confined(self) -> None:
        """Digits that leave the cells which see all their places in a house."""
        since, where = len(self.events), tuple(self.where)
        for house, others, outside in confinements(self.notes):
            for digit in range(1, self.notes.digits + 1):
                leaving = self.where[digit] & outside
                if leaving and not where[digit] & others:
                    spots = where[digit] & self.notes.sets[house]
                    self.events.append(Confined(house, digit, spots, since))
                    self._remove(len(self.events) - 1, digit, leaving)

    def _look_for_empty_cells(self) -> None:
        """Cells that have nothing left."""
        self.conflicts += [Conflict(cell) for cell, mask in enumerate(self.pencil) if not mask]

    def _look_for_singles(self) -> None:
        """The digits that must be placed in the next round, or have no place left."""
        found: dict[Cell, Placed] = {}
        for cell, mask in enumerate(self.pencil):
            if is_single(mask) and not self.placed >> cell & 1:
                found[cell] = Placed(cell, highest(mask))
        for digit in digits_of(self._lost):
            where = self.where[digit]
            for house, within in self.notes.full_sets:
                spots = where & within
                if spots & (spots - 1):
                    continue
                if not spots:
                    self.conflicts.append(Conflict(digit=digit, house=house))
                elif not spots & self.placed:
                    cell = highest(spots)
                    found.setdefault(cell, Placed(cell, digit, house))
        self._fresh = list(enumerate(found.values(), len(self.events)))
        self.events += found.values()
        self._lost = 0
