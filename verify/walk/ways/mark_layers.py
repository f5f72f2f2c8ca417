"""The layers of one mark and the houses that it crosses: which candidates stand in some way."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from verify.board import Cell
from verify.formula.layers import Layers, layers_of
from verify.formula.noted import noted
from verify.pencil import Mask, Pencil, bit, digits_of
from verify.walk.facts.cells import Cells
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link

EDGES_TO_A_CLAUSE: Final = 8
"""An edge takes so much less room than a clause of a solver."""


class MarkLayers:
    """Answers what `MarkSolver` answers, for marks whose note says all that they say.

    It is made for a sheet and can be asked about every sheet that comes of it. Raises BudgetSpent
    after the deadline.
    """

    def __init__(self, notes: Notes, link: Link, houses: Sequence[House], layers: Layers) -> None:
        self._notes = notes
        self._link = link
        self._houses = tuple(houses)
        self._layers = layers
        self._with_fewer: dict[tuple[House, ...], Layers | None] = {}
        self.size = layers.edges // EDGES_TO_A_CLAUSE

    def standing(self, pencil: Pencil) -> Mapping[Cell, Mask]:
        """The candidates of a sheet that stand in an arrangement."""
        return dict(zip(self._layers.cells, self._layers.kept(pencil), strict=True))

    def may_be_needed(self, asked: Sequence[tuple[Cells, Mask]], pencil: Pencil) -> list[Mask]:
        """Of some digits those that every arrangement has in some cells; both for several cells."""
        import numpy

        cases = [(at, digit) for at, (_, mask) in enumerate(asked) for digit in digits_of(mask)]
        held = numpy.array([pencil[cell] for cell in self._layers.cells])[:, None]
        sheets = numpy.repeat(held, len(cases), axis=1)
        inside = [[cells >> cell & 1 for cell in self._layers.cells] for cells, _ in asked]
        if cases:
            sheets &= ~(numpy.array(inside).T[:, [at for at, _ in cases]] << [d for _, d in cases])
        needed = [0] * len(asked)
        for (at, digit), has_way in zip(cases, self._layers.have_ways(sheets), strict=True):
            needed[at] |= 0 if has_way else bit(digit)
        return needed

    def without(self, cell: Cell, digit: int, pencil: Pencil) -> tuple[House, ...]:
        """The houses needed to rule out a digit in a cell which stands in no arrangement."""
        sheet = list(pencil)
        sheet[cell] = bit(digit)
        return self._needed(sheet)

    def nowhere(
        self, cells: Iterable[Cell], digit: int, pencil: Pencil
    ) -> tuple[House, ...] | None:
        """The houses needed to rule out that none of the cells holds a digit; else None."""
        sheet = list(pencil)
        for cell in cells:
            sheet[cell] &= ~bit(digit)
        return None if self._layers.has_way(sheet) else self._needed(sheet)

    def _needed(self, sheet: Pencil) -> tuple[House, ...]:
        """The houses without which a sheet would have a way; only where reasons are asked for."""
        needed = self._houses if self._notes.reasons else ()
        for house in reversed(needed):
            fewer = tuple(other for other in needed if other != house)
            if fewer not in self._with_fewer:
                self._with_fewer[fewer] = layers_on(self._notes, self._link, fewer)
            layers = self._with_fewer[fewer]
            if layers is not None and not layers.has_way(sheet):
                needed = fewer
        return needed


def layers_on(notes: Notes, link: Link, houses: Iterable[House]) -> Layers | None:
    """The layers of a mark and some houses; None where it has no note, or there are too many."""
    said = notes.facets[link]
    scan = noted(link.constraint, said, notes.pencil)
    if scan is None:
        return None
    groups = [*(group.cells for group in said.groups), *said.pairs]
    groups += (house.cells for house in houses)
    return layers_of(scan, groups, notes.pencil, notes.deadline)


def widest(notes: Notes, cells: Cells, houses: Iterable[House]) -> tuple[House, ...]:
    """Some houses without those of which all that some cells share is in another house."""
    shared: dict[House, Cells] = {}
    for house in houses:
        own = notes.sets[house] & cells
        if not any(own & ~other == 0 for other in shared.values()):
            shared = {each: other for each, other in shared.items() if other & ~own}
            shared[house] = own
    return tuple(shared)
