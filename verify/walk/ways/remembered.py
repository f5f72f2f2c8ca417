"""Marks of rules that are asked about many sheets: what one struck once is remembered."""

from collections.abc import Mapping, Sequence
from typing import Final

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.walk.facts.arrays import Masks, Numbers
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Link
from verify.walk.ways.many_rows import read_off
from verify.walk.ways.striker import Striker

MOST_REMEMBERED: Final = 4_000_000
"""Masks of cells that all marks together remember having been asked about."""


class RememberedStrikers:
    """Some marks, counted from 0; each remembers what it strikes by what its cells hold.

    Those that can be read off for many sheets at once need not remember. A mark that has filled its
    share of the room forgets all, and remembers anew. `most` is all the room there is, in masks of
    cells.
    """

    def __init__(
        self, notes: Notes, strikers: Mapping[Link, Striker], most: int = MOST_REMEMBERED
    ) -> None:
        import numpy

        self._strikers = tuple(strikers.values())
        self._most = most // max(1, sum(len(each.cells) for each in self._strikers))
        self._scratch = [0] * len(notes.pencil)
        self._known: list[dict[bytes, list[int]]] = [{} for _ in strikers]
        by = read_off(tuple(strikers), notes.facets, notes.digits)
        self._read_off = tuple(dict.fromkeys(each for each in by if each is not None))
        places = [-1 if each is None else self._read_off.index(each) for each in by]
        self._by = numpy.array(places, int)

    def struck(self, who: Numbers, held: Masks, deadline: Deadline = NEVER) -> Masks:
        """What leaves each cell of a mark where its cells hold so much, a row for each look.

        Raises BudgetSpent after the deadline.
        """
        import numpy

        struck, by = numpy.zeros_like(held), self._by[who]
        for place, marks in enumerate(self._read_off):
            rows = numpy.flatnonzero(by == place)
            if len(rows):
                deadline.check()
                struck[rows] = held[rows] & ~marks.kept(who[rows], held[rows])
        for at in numpy.flatnonzero(by < 0).tolist():
            masks = self._one(int(who[at]), held[at], deadline)
            struck[at, : len(masks)] = masks
        return struck

    def _one(self, number: int, held: Masks, deadline: Deadline) -> list[int]:
        """The same for one look at one mark; empty where nothing is struck."""
        known, key = self._known[number], held.tobytes()
        if key not in known:
            deadline.check()
            if len(known) > self._most:
                known.clear()
            known[key] = self._strikes(self._strikers[number], held.tolist())
        return known[key]

    def _strikes(self, striker: Striker, held: Sequence[int]) -> list[int]:
        """What it says itself; of other cells it knows nothing."""
        pencil = self._scratch
        masks = dict(zip(striker.cells, held, strict=False))
        for cell, mask in masks.items():
            pencil[cell] = mask
        struck: dict[Cell, int] = dict.fromkeys(striker.cells, 0)
        for strike in striker.strikes(pencil):
            for cell, mask in strike.removes:
                struck[cell] |= mask & masks[cell]
        return list(struck.values()) if any(struck.values()) else []
