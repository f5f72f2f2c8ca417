"""Takes givens from a complete answer as long as it stays the only one.

Where a second answer turns up, one of the cells in which it differs must keep a given; so most
orbits that can't be spared are known without asking the solver.
"""

from collections.abc import Collection, Iterable

from verify.board import Cell
from verify.compose.answers import Others
from verify.compose.orbits import Orbit


class Thinner:
    """Givens of one answer, and every second answer met so far."""

    def __init__(self, others: Others) -> None:
        self._others = others
        self._apart: list[frozenset[Cell]] = []

    def suffice(self, givens: Collection[Cell]) -> bool:
        """Whether these givens leave no other answer; what takes too long counts as no.

        Raises BudgetSpent after the deadline.
        """
        cells = frozenset(givens)
        if any(cells.isdisjoint(apart) for apart in self._apart):
            return False
        apart = self._others.apart(cells)
        if apart:
            self._apart.append(apart)
        return apart is None

    def thinned(
        self, givens: Collection[Cell], order: Iterable[Orbit], fewest: int = 0
    ) -> frozenset[Cell]:
        """The givens without each orbit that can be spared, tried in this order.

        It ends where no more than `fewest` are left.
        """
        kept = frozenset(givens)
        for orbit in order:
            if len(kept) <= fewest:
                break
            if kept.issuperset(orbit) and self.suffice(kept.difference(orbit)):
                kept = kept.difference(orbit)
        return kept

    def not_unique(self) -> frozenset[Cell]:
        """Cells in which the second answer met last differs."""
        return self._apart[-1] if self._apart else frozenset()
