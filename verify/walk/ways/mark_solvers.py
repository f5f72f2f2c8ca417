"""The solvers of the marks of a sheet, each made when it is first asked for."""

from collections import OrderedDict
from collections.abc import Sequence
from typing import Final

from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House, Link
from verify.walk.ways.mark_solver import MarkSolver

MOST_CLAUSES: Final = 1_000_000
"""Clauses of all solvers that are kept: some 200 MB. A 9x9 puzzle has a tenth of that."""


class MarkSolvers:
    """Keeps the solvers that were asked last, as far as there is room for them."""

    def __init__(self, notes: Notes) -> None:
        self._notes = notes
        self._kept: OrderedDict[Link, MarkSolver] = OrderedDict()
        self._clauses = 0

    def of(self, link: Link, houses: Sequence[House]) -> MarkSolver:
        """The solver of a mark with the houses that it crosses."""
        solver = self._kept.get(link)
        if solver is None:
            notes = self._notes
            solver = MarkSolver(notes.digits, notes.pencil, link.constraint, houses, notes.deadline)
            self._kept[link] = solver
            self._clauses += solver.size
            self._make_room()
        self._kept.move_to_end(link)
        return solver

    def _make_room(self) -> None:
        while self._clauses > MOST_CLAUSES and len(self._kept) > 1:
            _, oldest = self._kept.popitem(last=False)
            self._clauses -= oldest.size


def solvers_of(notes: Notes) -> MarkSolvers:
    """The one `MarkSolvers` of a sheet."""
    return notes.once(MarkSolvers)
