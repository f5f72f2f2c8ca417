"""Many suppositions followed at once, to know which are refuted, and in which round.

It goes the way of `verify.walk.suppose.supposing`, round for round, with arrays: a row for each
sheet, a column for each cell, and in it the digits that are left. It tells no reasons.
"""

from collections.abc import Sequence
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, digits_of, every_digit
from verify.walk.facts.arrays import Flags, Masks
from verify.walk.facts.cells import Candidate
from verify.walk.facts.confined import confinements
from verify.walk.facts.notes import Notes
from verify.walk.ways.strikers import strikers_of

MOST_NUMBERS: Final = 4_000_000
"""Numbers in the largest array that is made of a part of the sheets on the way."""


class Layout:
    """What never changes on a sheet, as arrays."""

    def __init__(self, notes: Notes) -> None:
        import numpy

        self.every_digit = every_digit(notes.digits)
        count = len(notes.pencil)
        self.peers = numpy.zeros((count, count), numpy.uint32)
        for cell, peers in enumerate(notes.peers):
            self.peers[cell, list(digits_of(peers))] = self.every_digit
        full = [house.cells for house in notes.full]
        self.houses = numpy.array(full, int).reshape(len(full), notes.digits)
        self.confined = Confines(notes)
        self.seats = numpy.array(_seats(full, count), int)
        confined = self.confined.others.size, self.confined.by.size
        self.widest = max(count, self.seats.size, self.houses.size, *confined)


class Confines:
    """Where houses confine digits to, as arrays.

    `others` has the cells of each confinement, filled up with a place that is no cell; `outside`
    pairs a cell that sees all other cells of the house with its confinement, sorted by the cell.
    """

    def __init__(self, notes: Notes) -> None:
        import numpy

        count = len(notes.pencil)
        found = [(list(digits_of(each.others)), each.outside) for each in confinements(notes)]
        most = max((len(others) for others, _ in found), default=0)
        self.others = numpy.array(
            [others + [count] * (most - len(others)) for others, _ in found], int
        ).reshape(len(found), most)
        pairs = sorted(
            (cell, at) for at, (_, cells) in enumerate(found) for cell in digits_of(cells)
        )
        self.by = numpy.array([at for _, at in pairs], int)
        cells = numpy.array([cell for cell, _ in pairs], int)
        self.first = numpy.flatnonzero(numpy.diff(cells, prepend=-1))
        self.cells = cells[self.first]

    def leaving(self, pencil: Masks, every_digit: int) -> Masks:
        """The digits that leave each of `cells` (columns), for each row of candidates."""
        import numpy

        nobody = numpy.zeros((len(pencil), 1), numpy.uint32)
        held = numpy.concatenate((pencil, nobody), axis=1)[:, self.others]
        confined = ~numpy.bitwise_or.reduce(held, axis=2) & numpy.uint32(every_digit)
        return numpy.bitwise_or.reduceat(confined[:, self.by], self.first, axis=1)


def _seats(houses: Sequence[Sequence[Cell]], count: int) -> list[list[int]]:
    """For each cell its places in a list of all houses' cells; the last place is nobody's."""
    seats: list[list[int]] = [[] for _ in range(count)]
    number = 0
    for house in houses:
        for cell in house:
            seats[cell].append(number)
            number += 1
    most = max(map(len, seats))
    return [places + [number] * (most - len(places)) for places in seats]


class Trial:
    """Sheets on which something is supposed, each followed until it is refuted or at its end.

    `sheets`, `placed`, `fresh` and `stirred` have a row for each sheet and a column for each cell,
    and mean what they do in a part.
    Large boards have more sheets than there is room for at once: they are followed part by part.
    """

    def __init__(
        self,
        notes: Notes,
        sheets: Masks,
        placed: Flags,
        fresh: Masks,
        stirred: Flags,
        *,
        watchful: bool = False,
    ) -> None:
        strikers_of(notes).refresh()
        self._deadline = notes.deadline
        self._step = max(1, MOST_NUMBERS // notes.once(Layout).widest)
        self._parts = []
        for first in range(0, max(1, len(sheets)), self._step):
            rows = slice(first, first + self._step)
            state = sheets[rows], placed[rows], fresh[rows], stirred[rows]
            self._parts.append(_Part(notes, *state, watchful=watchful))

    @classmethod
    def of(
        cls, notes: Notes, candidates: Sequence[Candidate], *, watchful: bool = False
    ) -> "Trial":
        """Each of some candidates supposed on a sheet of its own."""
        import numpy

        sheet = numpy.array(notes.pencil, numpy.uint32)
        placed = numpy.array([bool(notes.placed >> cell & 1) for cell in range(len(sheet))], bool)
        return cls._supposing(notes, sheet, placed, candidates, watchful=watchful)

    @classmethod
    def within(cls, notes: Notes, sheet: Masks) -> "tuple[Trial, list[Candidate]]":
        """Each open candidate of a sheet that was followed to its end, and these candidates.

        The sheet has what is left of each cell.
        """
        settled = sheet & (sheet - 1) == 0
        candidates = [
            (cell, digit)
            for cell in (~settled).nonzero()[0].tolist()
            for digit in digits_of(int(sheet[cell]))
        ]
        return cls._supposing(notes, sheet, settled, candidates), candidates

    @classmethod
    def going_on(cls, notes: Notes, sheet: Masks, stirred: Flags) -> "Trial":
        """A watchful one, from a sheet that was at its end and has lost more since.

        The sheet has what is left of each cell, and `stirred` says of which of them.
        """
        import numpy

        placed = (sheet & (sheet - 1) == 0) & ~stirred
        fresh = numpy.zeros((1, len(sheet)), numpy.uint32)
        return cls(notes, sheet[None], placed[None], fresh, stirred[None], watchful=True)

    @classmethod
    def without(cls, notes: Notes, struck: Sequence[Sequence[tuple[Cell, Mask]]]) -> "Trial":
        """A watchful one, in which the sheet has lost some candidates, on each sheet others."""
        import numpy

        sheet = numpy.array(notes.pencil, numpy.uint32)
        done = numpy.array([bool(notes.placed >> cell & 1) for cell in range(len(sheet))], bool)
        sheets, placed = numpy.tile(sheet, (len(struck), 1)), numpy.tile(done, (len(struck), 1))
        stirred = numpy.zeros_like(placed)
        for number, removes in enumerate(struck):
            for cell, mask in removes:
                sheets[number, cell] &= ~numpy.uint32(mask)
                stirred[number, cell] = True
        return cls(notes, sheets, placed, numpy.zeros_like(sheets), stirred, watchful=True)

    @classmethod
    def _supposing(
        cls,
        notes: Notes,
        sheet: Masks,
        placed: Flags,
        candidates: Sequence[Candidate],
        *,
        watchful: bool = False,
    ) -> "Trial":
        import numpy

        count = len(candidates)
        fresh = numpy.zeros((count, len(sheet)), numpy.uint32)
        if candidates:
            cells, digits = numpy.array(candidates).T
            fresh[numpy.arange(count), cells] = 1 << digits
        sheets, done = numpy.tile(sheet, (count, 1)), numpy.tile(placed, (count, 1))
        return cls(notes, sheets, done, fresh, numpy.zeros_like(done), watchful=watchful)

    @property
    def moving(self) -> bool:
        """Whether another round can find more."""
        return any(part.moving for part in self._parts)

    @property
    def sheets(self) -> Masks:
        """What is left of each cell, on each sheet; as it was when it was refuted."""
        import numpy

        return numpy.concatenate([part.sheets for part in self._parts])

    def advance(self) -> list[int]:
        """One more round of consequences; the numbers of the sheets that it refutes.

        Raises BudgetSpent after the deadline of the notes.
        """
        refuted: list[int] = []
        for number, part in enumerate(self._parts):
            self._deadline.check()
            if part.moving:
                refuted += (number * self._step + at for at in part.advance())
        return refuted


class _Part:
    """Some of the sheets of a trial.

    `sheets` holds what is left of each cell. Of the sheets that are `awake`, `pencil` holds the
    same, `fresh` the digits that the next round places, `placed` the cells that are done with, and
    `stirred` those that have lost something since the marks of rules last spoke. A `watchful`
    trial counts locked candidates among the consequences. All have a row for each sheet and a
    column for each cell.
    """

    def __init__(
        self,
        notes: Notes,
        sheets: Masks,
        placed: Flags,
        fresh: Masks,
        stirred: Flags,
        *,
        watchful: bool = False,
    ) -> None:
        import numpy

        self._layout, self._strikers, self._watchful = (
            notes.once(Layout),
            strikers_of(notes),
            watchful,
        )
        self._deadline = notes.deadline
        self._sheets, self._pencil = sheets, sheets.copy()
        self._placed, self._fresh, self._stirred = placed, fresh, stirred
        self._awake = numpy.arange(len(sheets))

    @property
    def moving(self) -> bool:
        """Whether another round can find more."""
        return bool(len(self._awake))

    @property
    def sheets(self) -> Masks:
        """What is left of each cell, on each sheet; as it was when it was refuted."""
        self._sheets[self._awake] = self._pencil
        return self._sheets

    def advance(self) -> list[int]:
        """One more round of consequences; the numbers of the sheets that it refutes."""
        import numpy

        self._settle()
        refuted = self._take((self._pencil == 0).any(axis=1))
        self._let_marks_strike()
        if self._watchful:
            self._look_for_confined()
        refuted += self._take((self._pencil == 0).any(axis=1))
        refuted += self._take(self._look_for_singles())
        self._take(~(numpy.any(self._fresh, axis=1) | numpy.any(self._stirred, axis=1)))
        return refuted

    def _take(self, which: Flags) -> list[int]:
        """Takes some of the sheets that are awake out."""
        if not which.any():
            return []
        taken, stay = self._awake[which], ~which
        self._sheets[taken] = self._pencil[which]
        self._awake = self._awake[stay]
        self._pencil, self._fresh = self._pencil[stay], self._fresh[stay]
        self._placed, self._stirred = self._placed[stay], self._stirred[stay]
        return list(map(int, taken))

    def _settle(self) -> None:
        """Writes digits in; they leave all cells that see them. Two for one cell are none."""
        import numpy

        rows, cells = self._fresh.nonzero()
        if not len(rows):
            return
        digits = self._fresh[rows, cells]
        digits[digits & (digits - 1) != 0] = 0
        before = self._pencil.copy()
        self._pencil[rows, cells] &= digits
        first = numpy.flatnonzero(numpy.diff(rows, prepend=-1))
        seen = numpy.bitwise_or.reduceat(self._layout.peers[cells] & digits[:, None], first, axis=0)
        self._pencil[rows[first]] &= ~seen
        self._placed[rows, cells] = True
        self._stirred |= before != self._pencil

    def _let_marks_strike(self) -> None:
        """All that marks of rules strike from the marks as they stand now."""
        import numpy

        before, stirred = self._pencil.copy(), self._stirred
        self._stirred = numpy.zeros_like(stirred)
        for tables in self._strikers.tables:
            tables.strike(before, stirred, self._pencil, self._stirred, self._deadline)
        for striker in self._strikers.remembered:
            rows = numpy.flatnonzero(stirred[:, striker.cells].any(axis=1))
            struck = striker.struck(before, rows, self._deadline)
            losing = [at for at, masks in enumerate(struck) if masks is not None]
            if losing:
                where = rows[losing][:, None], striker.cells
                masks = numpy.array([struck[at] for at in losing], numpy.uint32)
                self._stirred[where] |= self._pencil[where] & masks != 0
                self._pencil[where] &= ~masks

    def _look_for_confined(self) -> None:
        """Digits leave the cells that see all their places in a house."""
        confined = self._layout.confined
        if len(confined.cells):
            leaving = confined.leaving(self._pencil, self._layout.every_digit)
            held = self._pencil[:, confined.cells]
            self._stirred[:, confined.cells] |= held & leaving != 0
            self._pencil[:, confined.cells] = held & ~leaving

    def _look_for_singles(self) -> Flags:
        """Finds the digits to be placed in the next round; the sheets where one has no place."""
        import numpy

        layout = self._layout
        held = self._pencil[:, layout.houses]
        some = numpy.zeros(held.shape[:2], numpy.uint32)
        several = numpy.zeros(held.shape[:2], numpy.uint32)
        for place in range(held.shape[2]):
            several |= some & held[:, :, place]
            some |= held[:, :, place]
        alone = (held & (some & ~several)[:, :, None]).reshape(len(held), layout.houses.size)
        nobody = numpy.zeros((len(held), 1), numpy.uint32)
        alone = numpy.concatenate((alone, nobody), axis=1)[:, layout.seats]
        single = self._pencil & (self._pencil - 1) == 0
        self._fresh = numpy.bitwise_or.reduce(alone, axis=2)
        self._fresh[single] |= self._pencil[single]
        self._fresh[self._placed] = 0
        lost: Flags = numpy.any(some != layout.every_digit, axis=1)
        return lost
