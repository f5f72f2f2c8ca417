"""Many suppositions followed at once, to know which are refuted, and in which round.

It goes the way of `verify.walk.suppose.supposing`, round for round, with arrays: a row for each
cell, a column for each sheet, and in it the digits that are left. It tells no reasons.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Final

from verify.board import Cell
from verify.pencil import Mask, digits_of
from verify.walk.facts.arrays import Flags, Masks
from verify.walk.facts.cells import Candidate
from verify.walk.facts.notes import Notes
from verify.walk.suppose.layout import Layout
from verify.walk.ways.strikers import strikers_of

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

MOST_NUMBERS: Final = 4_000_000
"""Numbers in the largest array that is made of a part of the sheets on the way."""

WORTH_KEEPING: Final = 0.75
"""The share of the sheets of a part that go on, past which the others are not cleared away."""


class Trial:
    """Sheets on which something is supposed, each followed until it is refuted or at its end.

    `sheets` has a row for each sheet with what is left of each cell; `placed` says which cells are
    done with, `fresh` has the digits that the first round places, and `stirred` says which cells
    have lost something since the marks of rules last spoke.
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
        sheets = numpy.broadcast_to(sheet, fresh.shape)
        done = numpy.broadcast_to(placed, fresh.shape)
        return cls(notes, sheets, done, fresh, numpy.zeros_like(done), watchful=watchful)

    @property
    def moving(self) -> bool:
        """Whether another round can find more."""
        return any(part.moving for part in self._parts)

    @property
    def sheets(self) -> Masks:
        """What is left of each cell, on each sheet; as it was when it was refuted."""
        import numpy

        return numpy.concatenate([part.sheets for part in self._parts], axis=1).T

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
    """Some of the sheets of a trial, given as rows, kept as columns.

    `pencil` holds what is left of each cell, `fresh` the digits that the next round places, `open`
    all digits where a cell is not done with, and `stirred` the cells that have lost something since
    the marks of rules last spoke. Columns that are not `awake` are at rest, refuted or at their
    end: `sheets` keeps them as they were then, and where they are many they are cleared away.
    A `watchful` trial counts locked candidates among the consequences.
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

        self._layout = layout = notes.once(Layout)
        self._strikers, self._watchful = strikers_of(notes), watchful
        self._deadline = notes.deadline
        self._pencil = _with_nobody(sheets, layout.kind)
        self._fresh = _with_nobody(fresh, layout.kind)
        self._stirred = _with_nobody(stirred, numpy.bool_)
        self._open = numpy.where(placed.T, layout.kind(0), layout.kind(layout.every_digit))
        self._sheets = self._pencil[:-1].copy()
        self._numbers = numpy.arange(len(sheets))
        self._awake = numpy.ones(len(sheets), bool)

    @property
    def moving(self) -> bool:
        """Whether another round can find more."""
        return bool(len(self._numbers))

    @property
    def sheets(self) -> Masks:
        """What is left of each cell, on each sheet; as it was when it was refuted."""
        self._sheets[:, self._numbers[self._awake]] = self._pencil[:-1, self._awake]
        return self._sheets

    def advance(self) -> list[int]:
        """One more round of consequences; the numbers of the sheets that it refutes."""
        import numpy

        self._settle()
        refuted = self._take((self._pencil[:-1] == 0).any(axis=0))
        self._let_marks_strike()
        if self._watchful:
            self._look_for_confined()
        refuted += self._take((self._pencil[:-1] == 0).any(axis=0))
        refuted += self._take(self._look_for_singles())
        still: Flags = ~numpy.any(self._fresh.astype(bool) | self._stirred, axis=0)
        self._take(still)
        self._clear_away()
        return refuted

    def _take(self, which: Flags) -> list[int]:
        """Puts some of the sheets that are awake to rest."""
        which &= self._awake
        if not which.any():
            return []
        taken = self._numbers[which]
        self._sheets[:, taken] = self._pencil[:-1, which]
        self._awake ^= which
        self._stirred[:, which] = False
        self._fresh[:, which] = 0
        numbers: list[int] = taken.tolist()
        return numbers

    def _clear_away(self) -> None:
        """Lets the columns go of sheets that are at rest, if they are enough."""
        import numpy

        stay = self._awake
        if numpy.count_nonzero(stay) <= len(stay) * WORTH_KEEPING:
            self._pencil, self._fresh, self._open, self._stirred = (
                numpy.compress(stay, each, axis=1)
                for each in (self._pencil, self._fresh, self._open, self._stirred)
            )
            self._numbers, self._awake = self._numbers[stay], stay[stay]

    def _settle(self) -> None:
        """Writes digits in; they leave all cells that see them. Two for one cell are none."""
        import numpy

        fresh, pencil = self._fresh, self._pencil[:-1]
        placed = fresh != 0
        if not placed.any():
            return
        fresh *= fresh & (fresh - 1) == 0
        left = numpy.where(placed[:-1], fresh[:-1], self._layout.kind(self._layout.every_digit | 1))
        left &= ~self._layout.seen(fresh)
        left &= pencil
        self._stirred[:-1] |= left != pencil
        self._pencil[:-1] = left
        self._open[placed[:-1]] = 0

    def _let_marks_strike(self) -> None:
        """All that marks of rules strike from the marks as they stand now."""
        import numpy

        before, stirred = self._pencil.copy(), self._stirred
        self._stirred = numpy.zeros_like(stirred)
        for asked in self._strikers.asked:
            asked.strike(before, stirred, self._pencil, self._stirred, self._deadline)

    def _look_for_confined(self) -> None:
        """Digits leave the cells that see all their places in a house."""
        confined = self._layout.confined
        if len(confined.cells):
            leaving = confined.leaving(self._pencil, self._layout.every_digit)
            held = self._pencil[confined.cells]
            leaving &= held
            self._stirred[confined.cells] |= leaving != 0
            self._pencil[confined.cells] = held ^ leaving

    def _look_for_singles(self) -> Flags:
        """Finds the digits to be placed in the next round; the sheets where one has no place."""
        layout, pencil = self._layout, self._pencil[:-1]
        once, more = layout.once_or_more(self._pencil)
        fresh = layout.of_cells(once & ~more)
        fresh &= pencil
        fresh |= pencil * (pencil & (pencil - 1) == 0)
        fresh &= self._open
        self._fresh[:-1] = fresh
        self._fresh[:, ~self._awake] = 0
        lost: Flags = (once[:-1] != layout.every_digit).any(axis=0)
        return lost


def _with_nobody(rows: "NDArray[Any]", kind: "type[numpy.generic]") -> "NDArray[Any]":
    """Rows as columns, and one more place in each."""
    import numpy

    columns = numpy.zeros((rows.shape[1] + 1, len(rows)), kind)
    columns[:-1] = rows.T
    return columns
