"""Marks of rules that are asked about many sheets: what one struck once is remembered."""

from collections.abc import Sequence
from typing import Final

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.walk.facts.arrays import Masks, Numbers
from verify.walk.ways.striker import Striker

MOST_REMEMBERED: Final = 4_000_000
"""Masks of cells that all marks together remember having been asked about."""


class RememberedStrikers:
    """Some marks, counted from 0; each remembers what it strikes by what its cells hold.

    A mark that has filled its share of the room forgets all, and remembers anew.
    """

    def __init__(self, strikers: Sequence[Striker], most: int = MOST_REMEMBERED) -> None:
        self._strikers = tuple(strikers)
        self._most = most // max(1, sum(len(each.cells) for each in strikers))
        cells = (cell for each in strikers for cell in each.cells)
        self._scratch = [0] * (1 + max(cells, default=0))
        self._known: list[dict[bytes, list[int]]] = [{} for _ in strikers]

    def struck(self, who: Numbers, held: Masks, deadline: Deadline = NEVER) -> Masks:
        """What leaves each cell of a mark where its cells hold so much, a row for each look.

        Raises BudgetSpent after the deadline.
        """
        import numpy

        struck = numpy.zeros_like(held)
        for at, number in enumerate(who.tolist()):
            known, key = self._known[number], held[at].tobytes()
            if key not in known:
                deadline.check()
                if len(known) > self._most:
                    known.clear()
                known[key] = self._strikes(self._strikers[number], held[at].tolist())
            masks = known[key]
            struck[at, : len(masks)] = masks
        return struck

    def _strikes(self, striker: Striker, held: Sequence[int]) -> list[int]:
        """The same for one; of other cells it knows nothing. Empty where nothing is struck."""
        pencil = self._scratch
        masks = dict(zip(striker.cells, held, strict=False))
        for cell, mask in masks.items():
            pencil[cell] = mask
        struck: dict[Cell, int] = dict.fromkeys(striker.cells, 0)
        for strike in striker.strikes(pencil):
            for cell, mask in strike.removes:
                struck[cell] |= mask & masks[cell]
        return list(struck.values()) if any(struck.values()) else []
