"""Marks of rules that are asked about many sheets: what one struck once is remembered."""

from collections.abc import Mapping, Sequence
from typing import Final

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.walk.facts.arrays import Masks, Numbers
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Link
from verify.walk.ways.many_rows import ReadOff, read_off
from verify.walk.ways.striker import Striker

MOST_REMEMBERED: Final = 4_000_000
"""Masks of cells that all marks together remember having been asked about."""


class RememberedStrikers:
    """Some marks, counted from 0; each remembers what it strikes by what its cells hold.

    A mark that has filled its share of the room forgets all, and remembers anew. `most` is all the
    room there is, in masks of cells.
    """

    def __init__(
        self, notes: Notes, strikers: Mapping[Link, Striker], most: int = MOST_REMEMBERED
    ) -> None:
        self._strikers = tuple(strikers.values())
        self._most = most // max(1, sum(len(each.cells) for each in self._strikers))
        self._scratch = [0] * len(notes.pencil)
        self._known: list[dict[bytes, list[int]]] = [{} for _ in strikers]
        self._read_off = read_off(tuple(strikers), notes.facets, notes.digits)

    def struck(self, who: Numbers, held: Masks, deadline: Deadline = NEVER) -> Masks:
        """What leaves each cell of a mark where its cells hold so much, a row for each look.

        Raises BudgetSpent after the deadline.
        """
        import numpy

        keys = [row.tobytes() for row in held]
        numbers: list[int] = who.tolist()
        struck, new = numpy.zeros_like(held), dict[ReadOff | None, list[int]]()
        for at, number in enumerate(numbers):
            masks = self._known[number].get(keys[at])
            if masks is None:
                new.setdefault(self._read_off[number], []).append(at)
            else:
                struck[at, : len(masks)] = masks
        for by, rows in new.items():
            deadline.check()
            if by is not None:
                struck[rows] = held[rows] & ~by.kept(who[rows], held[rows])
            for at in rows:
                known = self._known[numbers[at]]
                if len(known) > self._most:
                    known.clear()
                if by is None:
                    deadline.check()
                    masks = self._strikes(self._strikers[numbers[at]], held[at].tolist())
                    struck[at, : len(masks)] = masks
                known[keys[at]] = struck[at].tolist()
        return struck

    def _strikes(self, striker: Striker, held: Sequence[int]) -> list[int]:
        """The same for one; of other cells it knows nothing."""
        pencil = self._scratch
        masks = dict(zip(striker.cells, held, strict=False))
        for cell, mask in masks.items():
            pencil[cell] = mask
        struck: dict[Cell, int] = dict.fromkeys(striker.cells, 0)
        for strike in striker.strikes(pencil):
            for cell, mask in strike.removes:
                struck[cell] |= mask & masks[cell]
        return list(struck.values())
