"""A solver for long searches, with as much of the face of the other as those need.

CaDiCaL takes half the time of the solver of short searches for what needs tens of thousands of
conflicts (measured on boards of 25x25), and is slow to begin. It has no native constraints. Asked
in the first thread it would take Ctrl-C for itself, so it is asked in a thread of its own; runs are
short, and Ctrl-C is heard between them.
"""

from collections.abc import Iterable, Sequence
from itertools import combinations
from threading import Thread
from typing import Any, Final

from verify.budget import Deadline

MOST_PAIRS: Final = 1_000_000
"""Clauses of two literals: some 100 MiB."""


class Patient:
    """A solver that is told of literals of which exactly one holds, and of clauses."""

    def __init__(self) -> None:
        from pysat.solvers import Cadical153

        self._solver: Any = Cadical153()
        self.add_clause = self._solver.add_clause
        self.conf_budget = self._solver.conf_budget
        self.get_model = self._solver.get_model
        self.delete = self._solver.delete

    def exactly_one(self, sets: Iterable[Sequence[int]], deadline: Deadline) -> None:
        """Of each of the sets exactly one literal holds. Raises BudgetSpent after the deadline."""
        for literals in sets:
            deadline.check()
            self.add_clause(literals)
            for one, other in combinations(literals, 2):
                self.add_clause([-one, -other])

    def solve_limited(self, assumptions: Sequence[int], expect_interrupt: bool) -> bool | None:
        """Whether there is a model, or None where that takes more conflicts than its budget."""
        found: list[bool | None] = []
        asking = Thread(target=lambda: found.append(self._solver.solve_limited(assumptions)))
        asking.start()
        asking.join()
        return found[0]


def pairs_of(sets: Iterable[Sequence[int]]) -> int:
    """How many clauses of two literals say that at most one of each set holds."""
    return sum(len(literals) * (len(literals) - 1) // 2 for literals in sets)
