"""The SAT solver: one prepared base for each set of houses, puzzles as guarded clauses on it.

The base says that each cell holds one digit and that each house holds every digit, with the
solver's native at-most-one constraints. It is built once and kept, with what it has learned. A
puzzle with many clauses of its own gains nothing from that, and gets a solver of its own.
"""

import atexit
from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain, count, repeat
from math import inf
from threading import TIMEOUT_MAX, Timer
from typing import Any, Final, TypeAlias

from verify.board import Board, Cell
from verify.budget import MOST_IN_HOUSES, NEVER, BudgetSpent, Deadline
from verify.formula.formula import GUARDS, Formula, Literal
from verify.pencil import ABSENT, Mask, Pencil, digits_of, every_digit, is_single
from verify.proof.leftovers import laws_of_leftovers
from verify.proof.patient import MOST_PAIRS, Patient, pairs_of
from verify.rule import Constraint

Houses: TypeAlias = tuple[tuple[Cell, ...], ...]

SLICE: Final = 2000
"""Conflicts between two looks at the clock."""

BETWEEN_LOOKS: Final = 1_000
"""Clauses handed to the solver between two looks at the clock."""

LARGE: Final = 50_000
"""Clauses of a formula past which the conflicts between two looks may take seconds."""

MOST_CLAUSES: Final = 100_000
"""Clauses of finished puzzles that a shared base may carry before it is built anew."""


@dataclass(slots=True)
class Allowance:
    """What may still be spent on one puzzle: conflicts, and time up to a deadline."""

    conflicts: int
    deadline: Deadline = NEVER

    def slice(self) -> int:
        """Conflicts for the next run; raises BudgetSpent where there are none."""
        self.deadline.check()
        if self.conflicts <= 0:
            raise BudgetSpent
        return min(SLICE, self.conflicts)


def new_solver() -> Any:
    """A solver that has native cardinality constraints and conflict budgets."""
    from pysat.solvers import Minicard

    return Minicard()


def limited(
    solver: Any, assumed: Sequence[Literal], conflicts: int, deadline: Deadline = NEVER
) -> bool | None:
    """Whether there is a model, or None where that takes more conflicts, or more time.

    A deadline costs a thread that wakes the solver: the solver itself knows no clock.
    """
    solver.conf_budget(conflicts)
    timer = None
    if deadline.at < inf:
        timer = Timer(min(max(deadline.left, 0.0), TIMEOUT_MAX), solver.interrupt)
        timer.start()
    try:
        # Without `expect_interrupt` the solver would take Ctrl-C for itself.
        found: bool | None = solver.solve_limited(assumptions=assumed, expect_interrupt=True)
    finally:
        if timer is not None:
            timer.cancel()
            timer.join()
            solver.clear_interrupt()
    return found


def _grounded(digits: int, houses: Houses, pencil: Pencil) -> Any:
    """A solver that knows cells and houses, and which digits the marks leave.

    Raises BudgetSpent where there are too many houses.
    """
    if digits * sum(map(len, houses)) > MOST_IN_HOUSES:
        raise BudgetSpent
    absent = frozenset(cell for cell, mask in enumerate(pencil) if mask == ABSENT)
    solver = new_solver()
    solver.add_clause([len(pencil) * digits + 1])
    # What is known comes first: then the solver leaves it out of all that follows.
    for literal in _known(digits, pencil):
        solver.add_clause([literal])
    in_houses = (_by_digit(digits, house) for house in houses)
    exactly_one = [*chain(_cells(digits, len(pencil), absent), *in_houses)]
    if digits > 1:
        deque(map(solver.add_atmost, exactly_one, repeat(1)), maxlen=0)
    _add_all(solver, exactly_one)
    _add_all(solver, _same_digits(digits, houses))
    return solver


def _add_all(solver: Any, clauses: Iterable[Sequence[Literal]]) -> None:
    """Adds clauses; a loop in Python would take half as long again."""
    deque(map(solver.add_clause, clauses), maxlen=0)


def _known(digits: int, pencil: Pencil) -> Iterator[Literal]:
    """Placed digits, and those that are struck from other cells."""
    everything = every_digit(digits)
    for cell, mask in enumerate(pencil):
        if is_single(mask) and mask != ABSENT:
            yield cell * digits + mask.bit_length() - 1
        elif mask != everything:
            for digit in digits_of(everything & ~mask):
                yield -(cell * digits + digit)


@lru_cache(maxsize=8)
def _same_digits(digits: int, houses: Houses) -> Sequence[tuple[Literal, ...]]:
    """A digit in a cell that is left over on one side stands in one of the other side's."""
    found: list[tuple[Literal, ...]] = []
    for law in laws_of_leftovers(houses):
        for side, across in (law, law[::-1]):
            there = _by_digit(digits, across)
            for cell in side:
                here = _in_cell(digits, cell)
                found += [(-literal, *some) for literal, some in zip(here, there, strict=True)]
    return found


@lru_cache(maxsize=128)
def _by_digit(digits: int, cells: Sequence[Cell]) -> Sequence[tuple[Literal, ...]]:
    """For each digit its literals in some cells."""
    return [*zip(*(_in_cell(digits, cell) for cell in cells), strict=True)]


def _in_cell(digits: int, cell: Cell) -> range:
    """The literals of each digit in a cell."""
    return range(cell * digits + 1, (cell + 1) * digits + 1)


@lru_cache(maxsize=8)
def _cells(digits: int, places: int, absent: frozenset[Cell]) -> Sequence[Sequence[Literal]]:
    """For each cell the literals of its digits."""
    return [list(_in_cell(digits, cell)) for cell in range(places) if cell not in absent]


class Base:
    """A solver that knows cells and houses; formulas are added one after another.

    Each formula's clauses hang on a guard literal, so that they can be let go afterwards
    while what was learned about the houses stays. What the rules say `everywhere` is known like
    houses; it has no variables of its own. Raises BudgetSpent where there are too many houses.
    """

    def __init__(
        self,
        digits: int,
        houses: Houses,
        pencil: Pencil,
        everywhere: Sequence[Sequence[Literal]] = (),
    ) -> None:
        self.digits = digits
        self.width = len(pencil) * digits
        self.clauses = 0
        self._guards = list(range(self.width + 1 + GUARDS, self.width + 1, -1))
        self._solver = _grounded(digits, houses, pencil)
        _add_all(self._solver, everywhere)

    @property
    def spent(self) -> bool:
        """Whether the base should be given up for a new one."""
        return self.clauses > MOST_CLAUSES or not self._guards

    def open(self, formula: Formula) -> "Session":
        """Adds a formula; close the session before the next one is opened.

        Raises BudgetSpent after the formula's deadline.
        """
        self.clauses += len(formula.clauses)
        return Session(self._solver, formula, self._guards.pop())


def alone(formula: Formula, houses: Houses) -> "Session":
    """A formula on a solver of its own, which knows nothing of other puzzles.

    Raises BudgetSpent after the formula's deadline, and where there are too many houses.
    """
    return Session(_grounded(formula.digits, houses, formula.pencil), formula)


def outlasting(formula: Formula, houses: Houses) -> "Session | None":
    """Houses on a solver for long searches; None where the formula says anything else.

    Also where there are too many of them. Raises BudgetSpent after the formula's deadline.
    """
    if formula.clauses or formula.counts:
        return None
    digits, pencil = formula.digits, formula.pencil
    absent = frozenset(cell for cell, mask in enumerate(pencil) if mask == ABSENT)
    in_houses = (_by_digit(digits, house) for house in houses)
    left = {each for cell, mask in enumerate(pencil) for each in _left(digits, cell, mask)}
    exactly_one = [
        [literal for literal in literals if literal in left]
        for literals in chain(_cells(digits, len(pencil), absent), *in_houses)
    ]
    if pairs_of(exactly_one) > MOST_PAIRS:
        return None
    solver = Patient()
    _add_all(solver, ([-each] for each in range(1, len(pencil) * digits + 1) if each not in left))
    solver.exactly_one(exactly_one, formula.deadline)
    return Session(solver, formula)


def _left(digits: int, cell: Cell, mask: Mask) -> Iterator[Literal]:
    """The literals of a cell's candidates."""
    return (cell * digits + digit for digit in digits_of(mask & every_digit(digits)))


class Session:
    """One formula on a solver: gives answers, and takes clauses that rule answers out.

    With a `guard` its clauses hang on that literal, so that they can be let go. Without one the
    solver is its own and knows what the formula's marks leave.
    """

    def __init__(self, solver: Any, formula: Formula, guard: Literal | None = None) -> None:
        self._solver = solver
        self._off = () if guard is None else (-guard,)
        self._places = len(formula.pencil)
        self._cells = self._places - sum(mask == ABSENT for mask in formula.pencil)
        self._width = self._places * formula.digits
        self._digits = formula.digits
        self._assumed = [] if guard is None else [guard, *self._settled(formula.pencil)]
        self.add(formula, 0)
        for literals, many in formula.counts:
            # The solver has no guards for these: such a formula has the solver for itself.
            solver.add_atmost(literals, many)
            solver.add_atmost([-literal for literal in literals], len(literals) - many)

    def add(self, formula: Formula, start: int) -> None:
        """Adds the clauses of the formula from that one on. Raises BudgetSpent."""
        self._large = len(formula.clauses) > LARGE
        for first in range(start, len(formula.clauses), BETWEEN_LOOKS):
            formula.deadline.check()
            some = formula.clauses[first : first + BETWEEN_LOOKS]
            for off in self._off:
                some = [(off, *clause) for clause in some]
            _add_all(self._solver, some)

    def _settled(self, pencil: Pencil) -> list[Literal]:
        """Placed digits are assumed; struck ones in open cells become guarded units."""
        digits, everything = self._digits, every_digit(self._digits)
        placed = []
        for cell, mask in enumerate(pencil):
            if mask == ABSENT:
                continue
            if is_single(mask):
                placed.append(cell * digits + mask.bit_length() - 1)
            elif mask != everything:
                for digit in digits_of(everything & ~mask):
                    self._solver.add_clause([*self._off, -(cell * digits + digit)])
        return placed

    def forced(self) -> tuple[tuple[int, ...] | None, int]:
        """The one answer, where unit propagation alone places every digit; else None.

        And how many digits of cells it leaves open, about.
        """
        sound, literals = self._solver.propagate(assumptions=self._assumed)
        placed = sorted(literal for literal in literals if 0 < literal <= self._width)
        if sound and len(placed) == self._cells:
            return self._grid(placed), 0
        return None, self._width - len(literals)

    def answer(
        self, allowance: Allowance, supposed: Sequence[Literal] = ()
    ) -> tuple[int, ...] | None:
        """An answer in which what is supposed holds, or None where there is none.

        Raises BudgetSpent.
        """
        if not self._holds([*self._assumed, *supposed], allowance):
            return None
        return self._grid(self._solver.get_model()[: self._width])

    def clash(self, supposed: Sequence[Literal], allowance: Allowance) -> frozenset[Literal] | None:
        """Some of what is supposed that can't hold together; None where all of it can.

        Raises BudgetSpent.
        """
        if self._holds([*self._assumed, *supposed], allowance):
            return None
        return frozenset(supposed).intersection(self._solver.get_core() or ())

    def digits_first(self) -> None:
        """From now on digits in cells are tried first: hard classics are a tenth sooner done."""
        self._solver.set_phases(range(1, self._width + 1))

    @property
    def conflicts(self) -> int:
        """Conflicts of the solver since it was made."""
        return int(self._solver.accum_stats()["conflicts"])

    def _holds(self, assumed: Sequence[Literal], allowance: Allowance) -> bool:
        """Whether there is a model, looking at the allowance between short runs."""
        found = None
        while found is None:
            before = allowance.slice()
            found = limited(self._solver, assumed, before, self._deadline_of(allowance))
            if found is None:
                allowance.conflicts -= before
        return found

    def _deadline_of(self, allowance: Allowance) -> Deadline:
        """The deadline, where the formula is so large that a run may go on far beyond it."""
        return allowance.deadline if self._large else NEVER

    def _grid(self, literals: Sequence[Literal]) -> tuple[int, ...]:
        digits = self._digits
        if self._cells == self._places:
            return tuple([(literal - 1) % digits + 1 for literal in literals if literal > 0])
        grid = [0] * self._places
        for literal in literals:
            if literal > 0:
                grid[(literal - 1) // digits] = (literal - 1) % digits + 1
        return tuple(grid)

    def differ(
        self, answer: Sequence[int], cells: Sequence[Cell], where: Literal | None = None
    ) -> None:
        """From now on, at least one of the cells holds another digit than in `answer`.

        With `where`, one does where that literal holds.
        """
        digits = self._digits
        guards = self._off if where is None else (*self._off, -where)
        self._solver.add_clause([*guards, *(-(cell * digits + answer[cell]) for cell in cells)])

    def follows(self, literal: Literal) -> tuple[bool, list[Literal]]:
        """What unit propagation finds when a literal is supposed, and whether that can be."""
        sound, literals = self._solver.propagate(assumptions=[*self._assumed, literal])
        return sound, [each for each in literals if abs(each) <= self._width]

    def possible(self, literal: Literal) -> bool:
        """Whether there is an answer in which the literal holds."""
        return bool(self._solver.solve(assumptions=[*self._assumed, literal]))

    def rule_out(self, literal: Literal) -> None:
        """From now on the literal does not hold."""
        self._solver.add_clause([*self._off, -literal])

    def close(self) -> None:
        """Lets the formula go."""
        if self._off:
            self._solver.add_clause(self._off)
        else:
            self._solver.delete()


Everywhere: TypeAlias = tuple[Constraint, ...]
"""What the rules of a puzzle say of the whole board, beside its houses."""


@lru_cache(maxsize=8)
def _kept(
    digits: int, houses: Houses, places: int, absent: frozenset[Cell], everywhere: Everywhere
) -> Base:
    said = Formula(digits, _open_pencil(digits, places, absent))
    for constraint in everywhere:
        constraint.clauses(said)
    return Base(digits, houses, said.pencil, said.clauses)


def _open_pencil(digits: int, places: int, absent: frozenset[Cell]) -> Pencil:
    everything = every_digit(digits)
    return [ABSENT if place in absent else everything for place in range(places)]


@lru_cache(maxsize=64)
def _asked_for(
    digits: int, houses: Houses, places: int, absent: frozenset[Cell], everywhere: Everywhere
) -> "count[int]":
    """How often a base has been asked for before."""
    return count()


def forget() -> None:
    """Lets every kept base go, and with it all that was learned."""
    _kept.cache_clear()


atexit.register(forget)  # solvers free their memory while their module still stands


def shared_base(board: Board, houses: Houses, everywhere: Everywhere = ()) -> Base | None:
    """The base that this process keeps for these houses and what is said `everywhere`.

    None where they are new to it: most irregular boards are seen once, and then a base is not
    worth making. Raises BudgetSpent as `Base` does.
    """
    key = board.digits, houses, len(board.places), board.absent, everywhere
    if next(_asked_for(*key)) == 0:
        return None
    base = _kept(*key)
    if base.spent:
        forget()
        base = _kept(*key)
    return base
