"""Strikers that are asked about many sheets at once."""

from collections.abc import Callable, Mapping, Sequence
from typing import Final, TypeAlias

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.walk.facts.arrays import Flags, Masks, Numbers
from verify.walk.ways.answers import Answers

MOST_AT_ONCE: Final = 40_000
"""Cells that are looked at together, so that what is made on the way stays in the cache."""

Struck: TypeAlias = "Callable[[Numbers, Masks, Deadline], Masks]"
"""Which strikers, what their cells hold (a row for each look), until when -> what is struck."""


class Asked:
    """Strikers of a few cells each, by their numbers, which `struck` knows.

    What they struck before is in `answers`. Cells that a striker has fewer than others are
    `nobody`.
    """

    def __init__(
        self, cells: Mapping[int, Sequence[Cell]], nobody: Cell, answers: Answers, struck: Struck
    ) -> None:
        import numpy

        filled = [[*each, *[nobody] * (answers.cells - len(each))] for each in cells.values()]
        self._cells = numpy.array(filled, int)
        self._places = numpy.ascontiguousarray(self._cells.T)
        self._numbers = numpy.array(list(cells), int)
        self._answers = answers
        self._struck = struck

    def strike(
        self,
        before: Masks,
        stirred: Flags,
        pencil: Masks,
        losing: Flags,
        deadline: Deadline = NEVER,
    ) -> None:
        """Takes from `pencil` all that is struck on `before`, where cells are stirred.

        All have a row for each cell, the last of them nobody, and a column for each sheet;
        `losing` is set where a cell loses something. Raises BudgetSpent after the deadline.
        """
        import numpy

        touched = stirred[self._places[0]]
        for place in self._places[1:]:
            touched |= stirred[place]
        looks = numpy.flatnonzero(touched)
        step = MOST_AT_ONCE // self._answers.cells
        for first in range(0, len(looks), step):
            deadline.check()
            who, sheets = numpy.divmod(looks[first : first + step], before.shape[1])
            places = self._cells[who] * before.shape[1] + sheets[:, None]
            struck = self._of(who, before.ravel()[places], deadline)
            at = numpy.flatnonzero(struck != 0)
            where = places.ravel()[at]
            losing.ravel()[where] = True
            numpy.bitwise_and.at(pencil.ravel(), where, ~struck.ravel()[at])

    def _of(self, who: Numbers, held: Masks, deadline: Deadline) -> Masks:
        numbers = self._numbers[who]
        return self._answers.of(
            numbers, held, lambda at: self._struck(numbers[at], held[at], deadline)
        )
