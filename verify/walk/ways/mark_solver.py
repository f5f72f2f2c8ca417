"""A small solver over the cells of one mark: which candidates stand in some arrangement."""

from collections.abc import Iterable, Sequence
from typing import Final

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.formula.formula import Formula, Literal
from verify.pencil import Mask, Pencil, digits_of, is_single
from verify.proof.solver import BETWEEN_LOOKS, limited, new_solver
from verify.rule import Constraint
from verify.walk.facts.step import House

CONFLICTS: Final = 500
"""Conflicts between two looks at the clock."""

RUNS: Final = 20
"""Runs of so many conflicts for one question: what takes more nobody finds by listing."""


class MarkSolver:
    """All arrangements of some cells under one mark of a rule and the houses that it crosses.

    Each house hangs on a literal of its own, so that what it takes to rule something out is
    told by the houses that were needed for it. Raises BudgetSpent after the deadline.

    The solver has variables of its own for what the clauses speak of, as it gives a value to each
    that it has: a board's 15,625 for every question would take longer than the search.
    """

    def __init__(
        self,
        digits: int,
        pencil: Pencil,
        constraint: Constraint,
        houses: Sequence[House],
        deadline: Deadline = NEVER,
    ) -> None:
        self._solver = new_solver()
        self._formula = formula = Formula(digits, pencil, deadline)
        constraint.clauses(formula)
        inside = frozenset(constraint.cells)
        guards = {formula.fresh(): house for house in houses}
        for guard, house in guards.items():
            before = len(formula.clauses)
            formula.distinct([cell for cell in house.cells if cell in inside])
            for clause in formula.clauses[before:]:
                clause.append(-guard)
        self._variables: dict[Literal, Literal] = {}
        for cell in sorted(inside):
            self._add_cell(cell, pencil[cell])
        self._last_of_cells = len(self._variables)
        self._solver.add_clause([self._own(formula.true)])
        for number, clause in enumerate(formula.clauses):
            if number % BETWEEN_LOOKS == 0:
                deadline.check()
            self._solver.add_clause([self._own(literal) for literal in clause])
        self._houses = {self._own(guard): house for guard, house in guards.items()}
        self._models: set[Literal] = set()

    def _own(self, literal: Literal) -> Literal:
        """The solver's literal for one of the formula."""
        variables = self._variables
        variable = variables.setdefault(abs(literal), len(variables) + 1)
        return variable if literal > 0 else -variable

    def _add_cell(self, cell: Cell, mask: Mask) -> None:
        if not is_single(mask):
            literals = [self._own(self._formula.literal(cell, digit)) for digit in digits_of(mask)]
            self._solver.add_clause(literals)
            self._solver.add_atmost(literals, 1)

    def without(self, cell: Cell, digit: int) -> tuple[House, ...] | None:
        """The houses needed to rule out a digit in a cell; None where it has an arrangement.

        So it is where that is too hard to tell.
        """
        literal = self._own(self._formula.literal(cell, digit))
        if literal in self._models:
            return None
        return self._ruled_out([literal])

    def nowhere(self, cells: Iterable[Cell], digit: int) -> tuple[House, ...] | None:
        """The houses needed to rule out that none of the cells holds a digit; else None."""
        literals = [self._formula.literal(cell, digit) for cell in cells]
        return self._ruled_out([-self._own(literal) for literal in literals])

    def _ruled_out(self, literals: list[Literal]) -> tuple[House, ...] | None:
        found = None
        for _ in range(RUNS):
            self._formula.deadline.check()
            found = limited(self._solver, [*self._houses, *literals], CONFLICTS)
            if found is not None:
                break
        if found:
            self._models.update(self._solver.get_model()[: self._last_of_cells])
        if found is not False:
            return None
        core = self._solver.get_core() or ()
        return tuple(self._houses[literal] for literal in core if literal in self._houses)

    def close(self) -> None:
        """Frees the solver."""
        self._solver.delete()
