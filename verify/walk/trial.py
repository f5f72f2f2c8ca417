"""Every open candidate supposed at once, to know which are refuted, and in which round.

It goes the way of `verify.walk.supposing`, round for round, with arrays: a row for each candidate,
a column for each cell, and in it the digits that are left. It tells no reasons.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Final, TypeAlias

from verify.board import Cell
from verify.pencil import bit, digits_of, every_digit
from verify.walk.cells import Candidate

if TYPE_CHECKING:
    from verify.walk.notes import Notes
    from verify.walk.voices import Voice

Array: TypeAlias = Any

MOST_REMEMBERED: Final = 20_000
"""Looks at a mark whose strikes are kept; then it is forgotten, and remembered anew."""


class Speaker:
    """Remembers what a voice strikes, by what its cells hold."""

    def __init__(self, voice: "Voice") -> None:
        self.cells = list(voice.cells)
        self._strikes_of = voice.strikes
        self._known: dict[bytes, list[int] | None] = {}

    def struck(self, sheets: Array, rows: Array) -> list[list[int] | None]:
        """What leaves each of its cells, on some sheets; None where nothing does."""
        held, width = sheets[rows[:, None], self.cells].tobytes(), 4 * len(self.cells)
        keys = [held[at : at + width] for at in range(0, len(held), width)]
        if len(self._known) > MOST_REMEMBERED:
            self._known.clear()
        for row, key in zip(rows, keys, strict=True):
            if key not in self._known:
                self._known[key] = self._strikes(sheets[row].tolist())
        return [self._known[key] for key in keys]

    def _strikes(self, pencil: list[int]) -> list[int] | None:
        struck: dict[Cell, int] = dict.fromkeys(self.cells, 0)
        for strike in self._strikes_of(pencil):
            for cell, mask in strike.removes:
                struck[cell] |= mask
        return list(struck.values()) if any(struck.values()) else None


class Layout:
    """What never changes on a sheet, as arrays."""

    def __init__(self, notes: "Notes") -> None:
        import numpy

        self.speakers = list(map(Speaker, notes.voices))
        self.every_digit = every_digit(notes.digits)
        count = len(notes.pencil)
        self.peers = numpy.zeros((count, count), numpy.uint32)
        for cell, peers in enumerate(notes.peers):
            self.peers[cell, list(digits_of(peers))] = self.every_digit
        full = [house.cells for house in notes.full]
        self.houses = numpy.array(full, int).reshape(len(full), notes.digits)
        self.confined = Confines(notes)
        self.seats = numpy.array(_seats(full, count), int)


class Confines:
    """Where houses confine digits to, as arrays.

    `others` has the cells of each confinement, filled up with a place that is no cell; `outside`
    pairs a cell that sees all other cells of the house with its confinement, sorted by the cell.
    """

    def __init__(self, notes: "Notes") -> None:
        import numpy

        count = len(notes.pencil)
        found = [(list(digits_of(each.others)), each.outside) for each in notes.confinements]
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

    def leaving(self, pencil: Array, every_digit: int) -> Array:
        """The digits that leave each of `cells`, for each row of candidates."""
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
    """Suppositions that are neither refuted nor at their end yet.

    `pencil` holds what is left of each cell, `fresh` the digits that the next round places,
    `placed` the cells that are done with, and `stirred` those that have lost something since the
    marks of rules last spoke. A `watchful` trial counts locked candidates among the consequences.
    """

    def __init__(self, notes: "Notes", *, watchful: bool = False) -> None:
        import numpy

        self._layout = notes.layout
        self._watchful = watchful
        self._supposed = list(notes.candidates())
        count, cells = len(self._supposed), len(notes.pencil)
        self._pencil = numpy.tile(numpy.array(notes.pencil, numpy.uint32), (count, 1))
        self._fresh = numpy.zeros((count, cells), numpy.uint32)
        for row, (cell, digit) in enumerate(self._supposed):
            self._fresh[row, cell] = bit(digit)
        placed = [bool(notes.placed >> cell & 1) for cell in range(cells)]
        self._placed = numpy.tile(numpy.array(placed, bool), (count, 1))
        self._stirred = numpy.zeros((count, cells), bool)

    @property
    def moving(self) -> bool:
        """Whether another round can find more."""
        return bool(self._supposed)

    def advance(self) -> list[Candidate]:
        """One more round of consequences; the candidates that it refutes."""
        self._settle()
        refuted = self._take((self._pencil == 0).any(axis=1))
        self._let_marks_strike()
        if self._watchful:
            self._look_for_confined()
        refuted += self._take((self._pencil == 0).any(axis=1))
        refuted += self._take(self._look_for_singles())
        self._take(~(self._fresh.any(axis=1) | self._stirred.any(axis=1)))
        return refuted

    def _take(self, which: Array) -> list[Candidate]:
        """Takes some suppositions out."""
        if not which.any():
            return []
        taken = [candidate for candidate, out in zip(self._supposed, which, strict=True) if out]
        stay = ~which
        self._supposed = [
            candidate for candidate, kept in zip(self._supposed, stay, strict=True) if kept
        ]
        self._pencil, self._fresh = self._pencil[stay], self._fresh[stay]
        self._placed, self._stirred = self._placed[stay], self._stirred[stay]
        return taken

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
        for speaker in self._layout.speakers:
            rows = numpy.flatnonzero(stirred[:, speaker.cells].any(axis=1))
            struck = speaker.struck(before, rows)
            losing = [at for at, masks in enumerate(struck) if masks is not None]
            if losing:
                where = rows[losing][:, None], speaker.cells
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

    def _look_for_singles(self) -> Array:
        """Finds the digits to be placed in the next round; where one has no place left."""
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
        return (some != layout.every_digit).any(axis=1)
