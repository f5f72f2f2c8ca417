"""Supposing that a cell holds a digit, and following what comes of it to a contradiction.

Consequences are found in rounds: all that follows at once, then all that follows from that.
Every removal remembers its cause, so that in the end just what led to the contradiction is told.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, highest, is_single
from verify.walk.notes import Cells, Notes, cells_of
from verify.walk.step import Because, Consequence, DeadEnd, House, Link


@dataclass(frozen=True, slots=True)
class Event:
    """Something that follows: a digit placed in a cell, or what a mark of a rule strikes.

    `needs` are earlier events; `cells` those whose marks on the sheet count. The last event of
    a supposition that fails is its `dead_end`.
    """

    needs: tuple[int, ...]
    cells: tuple[Cell, ...] = ()
    houses: tuple[House, ...] = ()
    links: tuple[Link, ...] = ()
    placed: Consequence | None = None
    dead_end: DeadEnd | None = None


@dataclass(frozen=True, slots=True)
class Refuted:
    """A contradiction: after how many rounds, why, and the digits on the way to it."""

    rounds: int
    because: Because
    chain: tuple[Consequence, ...]
    dead_end: DeadEnd | None


Gone = dict[tuple[Cell, int], tuple[int, Cell | None]]
"""Each removed candidate: the event that removed it, and the placed cell that it sees."""


@dataclass(slots=True)
class Supposition:
    """One candidate supposed on a copy of the sheet.

    `fresh` are the placements of the last round, which the next one follows; without any there
    is nothing more to find. `changed` holds what each cell has lost in this round.
    """

    notes: Notes
    cell: Cell
    digit: int
    pencil: list[Mask] = field(init=False)
    where: list[Cells] = field(init=False)
    changed: dict[Cell, Mask] = field(init=False)
    events: list[Event] = field(init=False)
    gone: Gone = field(init=False)
    placed: Cells = field(init=False)
    fresh: list[int] = field(init=False)
    rounds: int = field(init=False)

    def __post_init__(self) -> None:
        self.pencil = list(self.notes.pencil)
        self.where = list(self.notes.where)
        self.placed = self.notes.placed
        self.gone = {}
        self.changed = {}
        self.events = [Event((), placed=Consequence(self.cell, self.digit))]
        self.fresh = [0]
        self.rounds = 0

    def advance(self) -> Refuted | None:
        """One more round of consequences; what refutes the supposition, if that does."""
        self.rounds += 1
        self.changed = {}
        for index in self.fresh:
            if not self._settle(index):
                return self._refuted(self._clash(index))
        conflict = self._empty()
        if conflict is None:
            self._let_marks_strike()
            conflict = self._empty() or self._homeless()
        if conflict is not None:
            return self._refuted(conflict)
        self.fresh = self._singles()
        return None

    def _remove(self, cell: Cell, digit: int, event: int, seen: Cell | None = None) -> None:
        """Takes a candidate away, and remembers why."""
        self.gone[cell, digit] = event, seen
        self.pencil[cell] &= ~bit(digit)
        self.where[digit] &= ~(1 << cell)
        self.changed[cell] = self.changed.get(cell, 0) | bit(digit)

    def _settle(self, index: int) -> bool:
        """Writes a placed digit in; False where its cell no longer takes it."""
        placed = self.events[index].placed
        assert placed is not None  # noqa: S101 - only placements are settled
        cell, digit = placed.cell, placed.digit
        if not self.pencil[cell] >> digit & 1:
            return False
        self.placed |= 1 << cell
        for other in digits_of(self.pencil[cell] & ~bit(digit)):
            self._remove(cell, other, index)
        for peer in cells_of(self.notes.peers[cell] & self.where[digit]):
            self._remove(peer, digit, index, cell)
        return True

    def _let_marks_strike(self) -> None:
        """All that marks of rules strike from the marks as they stand now."""
        speaking = {
            link: None for cell in self.changed for link in self.notes.speaking.get(cell, ())
        }
        before = tuple(self.pencil)
        for link in speaking:
            struck = [
                (cell, digit)
                for strike in link.constraint.strikes(before)
                for cell, mask in strike.removes
                for digit in digits_of(mask & self.pencil[cell])
            ]
            if struck:
                cells = link.constraint.cells
                event = self._add(Event(self._removals(cells, before), cells, (), (link,)))
                for cell, digit in struck:
                    self._remove(cell, digit, event)

    def _removals(self, cells: Iterable[Cell], pencil: Sequence[Mask]) -> tuple[int, ...]:
        """The events behind all that has left some cells since the supposition."""
        return tuple(
            sorted(
                {
                    self.gone[cell, digit][0]
                    for cell in cells
                    for digit in digits_of(self.notes.pencil[cell] & ~pencil[cell])
                }
            )
        )

    def _singles(self) -> list[int]:
        """The digits that must now be placed, as events."""
        found: dict[Cell, int] = {}
        for cell in sorted(self.changed):
            if is_single(self.pencil[cell]) and not self.placed >> cell & 1:
                needs = self._removals((cell,), self.pencil)
                placed = Consequence(cell, highest(self.pencil[cell]))
                found[cell] = self._add(Event(needs, (cell,), placed=placed))
        for house, digit, spots in self._spots():
            if is_single(spots) and not spots & self.placed:
                spot = highest(spots)
                if spot not in found:
                    found[spot] = self._add(self._only_place(house, digit, spot))
        return list(found.values())

    def _only_place(self, house: House, digit: int, spot: Cell) -> Event:
        others = tuple(cell for cell in house.cells if cell != spot)
        needs = self._removals_of(others, digit)
        return Event(needs, others, (house,), placed=Consequence(spot, digit))

    def _removals_of(self, cells: tuple[Cell, ...], digit: int) -> tuple[int, ...]:
        return tuple(
            sorted({self.gone[cell, digit][0] for cell in cells if (cell, digit) in self.gone})
        )

    def _add(self, event: Event) -> int:
        self.events.append(event)
        return len(self.events) - 1

    def _spots(self) -> Iterator[tuple[House, int, Cells]]:
        """Where a digit can still go, for each digit and house that has lost a place for it."""
        lost: dict[int, Cells] = {}
        for cell, mask in self.changed.items():
            for digit in digits_of(mask):
                lost[digit] = lost.get(digit, 0) | 1 << cell
        of_cell, sets = self.notes.full_of, self.notes.full_sets
        for digit in sorted(lost):
            where = self.where[digit]
            numbers = 0
            for cell in cells_of(lost[digit]):
                numbers |= of_cell[cell]
            for number in digits_of(numbers):
                house, within = sets[number]
                yield house, digit, where & within

    def _empty(self) -> Event | None:
        """A cell with no candidate left."""
        for cell in sorted(self.changed):
            if not self.pencil[cell]:
                needs = self._removals((cell,), self.pencil)
                return Event(needs, (cell,), dead_end=DeadEnd(cell))
        return None

    def _homeless(self) -> Event | None:
        """A digit with no place left in a house."""
        for house, digit, spots in self._spots():
            if not spots:
                needs = self._removals_of(house.cells, digit)
                dead_end = DeadEnd(digit=digit, house=house)
                return Event(needs, house.cells, (house,), dead_end=dead_end)
        return None

    def _clash(self, index: int) -> Event:
        """A digit that must be placed where it has just been ruled out."""
        placed = self.events[index].placed
        assert placed is not None  # noqa: S101 - only placements are settled
        by = self.gone.get((placed.cell, placed.digit))
        dead_end = DeadEnd(placed.cell, placed.digit)
        return Event((index, by[0]) if by else (index,), (placed.cell,), dead_end=dead_end)

    def _refuted(self, conflict: Event) -> Refuted:
        """Gathers what led to a contradiction, and nothing else."""
        needed: set[int] = set()
        waiting = list(conflict.needs)
        while waiting:
            index = waiting.pop()
            if index not in needed:
                needed.add(index)
                waiting.extend(self.events[index].needs)
        events = [self.events[index] for index in sorted(needed)] + [conflict]
        houses: dict[House, None] = {}
        links: dict[Link, None] = {}
        cells = {self.cell}
        for event in events:
            cells.update(event.cells)
            houses.update(dict.fromkeys(event.houses))
            links.update(dict.fromkeys(event.links))
        for (cell, _), (index, seen) in self.gone.items():
            if index in needed and seen is not None and cell in cells:
                more_houses, more_links = self.notes.sights((seen,), (cell,))
                houses.update(dict.fromkeys(more_houses))
                links.update(dict.fromkeys(more_links))
        chain = tuple(event.placed for event in events if event.placed is not None)
        because = Because(tuple(sorted(cells)), bit(self.digit), tuple(houses), tuple(links))
        return Refuted(self.rounds, because, chain, conflict.dead_end)
