"""Who tells the arrangements of each mark of a sheet, made when the mark is first asked about."""

from collections import OrderedDict
from collections.abc import Sequence
from math import prod
from typing import Final, TypeAlias

from verify.walk.facts.cells import set_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link
from verify.walk.ways.mark_layers import MarkLayers, layers_on, widest
from verify.walk.ways.mark_solver import MarkSolver

Arranger: TypeAlias = MarkLayers | MarkSolver
"""Layers where a mark has a note and there are not too many of them; else a solver."""

MOST_CLAUSES: Final = 1_000_000
"""Clauses of all that are kept: some 200 MB. A 9x9 puzzle has a tenth of that."""

TRIED_AGAIN: Final = 8
"""A mark that had too many layers is looked at again when it has so many times fewer ways."""


class Arrangers:
    """Keeps those that were asked last, as far as there is room for them."""

    def __init__(self, notes: Notes) -> None:
        self._notes = notes
        self._kept: OrderedDict[Link, Arranger] = OrderedDict()
        self._most: dict[Link, int] = {}
        self._clauses = 0

    def of(self, link: Link, houses: Sequence[House]) -> Arranger:
        """That of a mark with the houses that it crosses."""
        found = self._kept.get(link)
        if not isinstance(found, MarkLayers):
            found = self._layers(link, houses) or found or self._solver(link, houses)
            self._keep(link, found)
        self._kept.move_to_end(link)
        return found

    def _layers(self, link: Link, houses: Sequence[House]) -> MarkLayers | None:
        notes = self._notes
        ways = prod(mask.bit_count() for mask in notes.marks(set(link.constraint.cells)))
        if link in self._most and ways > self._most[link]:
            return None
        houses = widest(notes, set_of(link.constraint.cells), houses)
        layers = layers_on(notes, link, houses)
        if layers is None:
            self._most[link] = ways // TRIED_AGAIN
            return None
        return MarkLayers(notes, link, houses, layers)

    def _solver(self, link: Link, houses: Sequence[House]) -> MarkSolver:
        notes = self._notes
        return MarkSolver(notes.digits, notes.pencil, link.constraint, houses, notes.deadline)

    def _keep(self, link: Link, arranger: Arranger) -> None:
        before = self._kept.get(link)
        if before is not arranger:
            self._clauses += arranger.size - (before.size if before else 0)
            self._kept[link] = arranger
        while self._clauses > MOST_CLAUSES and len(self._kept) > 1:
            _, oldest = self._kept.popitem(last=False)
            self._clauses -= oldest.size


def arrangers_of(notes: Notes) -> Arrangers:
    """The one `Arrangers` of a sheet."""
    return notes.once(Arrangers)
