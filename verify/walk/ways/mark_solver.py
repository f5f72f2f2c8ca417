"""A small solver over the cells of one mark: which candidates stand in some arrangement."""

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import reduce
from operator import or_
from typing import Final

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.formula.formula import Formula, Literal
from verify.pencil import Mask, Pencil, bit, digits_of, is_single
from verify.proof.solver import BETWEEN_LOOKS, limited, new_solver
from verify.rule import Constraint
from verify.walk.facts.cells import Candidate, Cells
from verify.walk.facts.step import House

CONFLICTS: Final = 500
"""Conflicts between two looks at the clock."""

RUNS: Final = 20
"""Runs of so many conflicts for one question: what takes more nobody finds by listing."""

MOST_REMEMBERED: Final = 300
"""Arrangements that are remembered, so that what stands in them need not be asked about."""


class MarkSolver:
    """All arrangements of some cells under one mark of a rule and the houses that it crosses.

    It is made for a sheet and can be asked about every sheet that comes of it: what has gone since
    is assumed to be gone. Each house hangs on a literal of its own, so that what it takes to rule
    something out is told by the houses that were needed for it. An arrangement that was found once
    is remembered. Raises BudgetSpent after the deadline.

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
        self._deadline = deadline
        formula = Formula(digits, pencil, deadline)
        constraint.clauses(formula)
        inside = sorted(set(constraint.cells))
        guards = {formula.fresh(): house for house in houses}
        for guard, house in guards.items():
            before = len(formula.clauses)
            formula.distinct([cell for cell in house.cells if cell in inside])
            guarded = [(*clause, -guard) for clause in formula.clauses[before:]]
            formula.clauses[before:] = guarded
        self._variables: dict[Literal, Literal] = {}
        self._masks = {cell: pencil[cell] for cell in inside}
        self._literals: dict[Candidate, Literal] = {}
        for cell in inside:
            self._add_cell(formula, cell, pencil[cell])
        self._solver.add_clause([self._own(formula.true)])
        for number, clause in enumerate(formula.clauses):
            if number % BETWEEN_LOOKS == 0:
                deadline.check()
            self._solver.add_clause([self._own(literal) for literal in clause])
        self._houses = {self._own(guard): house for guard, house in guards.items()}
        self._digits_of_cells = [
            (mask, [(self._literals[cell, digit], bit(digit)) for digit in digits_of(mask)])
            for cell, mask in self._masks.items()
        ]
        self._arrangements: deque[tuple[Mask, ...]] = deque(maxlen=MOST_REMEMBERED)
        self.size = len(formula.clauses)

    def _own(self, literal: Literal) -> Literal:
        """The solver's literal for one of the formula."""
        variables = self._variables
        variable = variables.setdefault(abs(literal), len(variables) + 1)
        return variable if literal > 0 else -variable

    def _add_cell(self, formula: Formula, cell: Cell, mask: Mask) -> None:
        for digit in digits_of(mask):
            self._literals[cell, digit] = self._own(formula.literal(cell, digit))
        if not is_single(mask):
            literals = [self._literals[cell, digit] for digit in digits_of(mask)]
            self._solver.add_clause(literals)
            self._solver.add_atmost(literals, 1)

    def standing(self, pencil: Pencil) -> Mapping[Cell, Mask]:
        """The candidates of a sheet that stand in an arrangement which is remembered."""
        found = dict.fromkeys(self._masks, 0)
        for arrangement in self._on(pencil):
            for cell, mask in zip(self._masks, arrangement, strict=True):
                found[cell] |= mask
        return found

    def without(self, cell: Cell, digit: int, pencil: Pencil) -> tuple[House, ...] | None:
        """The houses needed to rule out a digit in a cell; None where it has an arrangement.

        So it is where that is too hard to tell.
        """
        return self._ruled_out([self._literals[cell, digit]], pencil)

    def may_be_needed(self, asked: Sequence[tuple[Cells, Mask]], pencil: Pencil) -> list[Mask]:
        """Of some digits those that each arrangement which is remembered has in some cells.

        Both for several cells.
        """
        known, found = list(self._on(pencil)), []
        for cells, digits in asked:
            inside = [at for at, cell in enumerate(self._masks) if cells >> cell & 1]
            for arrangement in known:
                if digits:
                    digits &= reduce(or_, [arrangement[at] for at in inside], 0)
            found.append(digits)
        return found

    def nowhere(
        self, cells: Iterable[Cell], digit: int, pencil: Pencil
    ) -> tuple[House, ...] | None:
        """The houses needed to rule out that none of the cells holds a digit; else None."""
        cells = frozenset(cells)
        at = [number for number, cell in enumerate(self._masks) if cell in cells]
        if any(
            not any(arrangement[number] >> digit & 1 for number in at)
            for arrangement in self._on(pencil)
        ):
            return None
        there = [(cell, digit) for cell in sorted(cells) if (cell, digit) in self._literals]
        literals = [-self._literals[each] for each in there]
        return self._ruled_out(literals, pencil)

    def blamed(
        self, cells: Iterable[Cell], digit: int, gone: Iterable[Candidate], *, stands: bool
    ) -> frozenset[Candidate] | None:
        """Of the candidates that are gone, those by which a digit can't stand in any of the cells.

        Or, unless it `stands`, by which it must stand in one of them. None where that does not
        follow, or is too hard to tell. For this the solver is made of cells with all digits.
        """
        sign = 1 if stands else -1
        literals = [sign * self._literals[cell, digit] for cell in cells]
        assumed = {-self._literals[each]: each for each in gone}
        if self._ask([*self._houses, *assumed, *literals]) is not False:
            return None
        core = self._solver.get_core() or ()
        return frozenset(assumed[literal] for literal in core if literal in assumed)

    def _on(self, pencil: Pencil) -> Iterator[tuple[Mask, ...]]:
        """The arrangements that are remembered and stand on a sheet."""
        held = [pencil[cell] for cell in self._masks]
        for arrangement in self._arrangements:
            if all(mask & marks for mask, marks in zip(arrangement, held, strict=True)):
                yield arrangement

    def _ruled_out(self, literals: list[Literal], pencil: Pencil) -> tuple[House, ...] | None:
        gone = [
            -self._literals[cell, digit]
            for cell, mask in self._masks.items()
            for digit in digits_of(mask & ~pencil[cell])
        ]
        found = self._ask([*self._houses, *gone, *literals])
        if found:
            self._remember()
        if found is not False:
            return None
        core = self._solver.get_core() or ()
        return tuple(self._houses[literal] for literal in core if literal in self._houses)

    def _remember(self) -> None:
        """Keeps the arrangement that was found last."""
        model = self._solver.get_model()
        self._arrangements.append(
            tuple(_held(mask, digits, model) for mask, digits in self._digits_of_cells)
        )

    def _ask(self, literals: list[Literal]) -> bool | None:
        """Whether the literals can all be true; None where that is too hard to tell."""
        for _ in range(RUNS):
            self._deadline.check()
            found = limited(self._solver, literals, CONFLICTS)
            if found is not None:
                return found
        return None


def _held(mask: Mask, digits: Sequence[tuple[Literal, Mask]], model: Sequence[Literal]) -> Mask:
    """What a cell holds in a model, which has a literal for each variable; all where that is open.

    `digits` has a literal for each.
    """
    for literal, digit in digits:
        at = abs(literal) - 1
        if at < len(model) and model[at] == literal:
            return digit
    return mask
