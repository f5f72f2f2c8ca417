"""Why there is no answer: givens and marks that can't stand together, and none to spare.

Plain reasons come first: two equal givens that see each other in the grid, a mark that nothing
fits, a mark that the givens in its cells break. Else parts are left out one after another, in
several orders, as long as there is still no answer; the shortest set that is left is told.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random
from typing import Final

from verify.budget import NEVER, USUAL, BudgetSpent, Deadline
from verify.proof.parts import GivenPart, MarkPart, Part, ground_of
from verify.proof.selection import Selection
from verify.proof.solver import Allowance
from verify.puzzle import Puzzle
from verify.rules.workings.distinct import Distinct

MOST_CONFLICTS: Final = USUAL.conflicts
"""Conflicts of the solver that may be spent on one set."""

MORE_CONFLICTS: Final = 10_000
"""Conflicts for shorter sets, once there is one."""

SHUFFLES: Final = 6
"""Orders drawn by chance, the same in every run, beside those that mean something."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Parts that can't stand together, in the order of the manifest.

    `smallest` where no part can be left out: where the budget ran out there may be some. No
    parts at all: the grid itself has no answer.
    """

    parts: tuple[Part, ...]
    smallest: bool = True


def conflict_of(
    puzzle: Puzzle, deadline: Deadline = NEVER, conflicts: int = MOST_CONFLICTS
) -> Conflict | None:
    """Why a puzzle has no answer.

    None where it has one, or where the budget ran out before any reason was found.
    """
    equal = _equal_givens(puzzle)
    allowance = Allowance(conflicts, deadline)
    try:
        selection = Selection(puzzle, deadline)
        search = _Search(selection, allowance)
    except BudgetSpent:
        return Conflict(equal) if equal else None
    if equal:
        search.best = equal
    search.run()
    if search.best is not None:
        return Conflict(search.best)
    return Conflict(search.known, smallest=False) if search.known is not None else None


def _equal_givens(puzzle: Puzzle) -> tuple[Part, ...]:
    """The first two equal givens that no grid holds; nothing where there are none."""
    for constraint in ground_of(puzzle):
        if isinstance(constraint, Distinct):
            seen: dict[int, int] = {}
            for cell in constraint.cells:
                digit = puzzle.givens[cell]
                if digit and digit in seen:
                    pair = sorted((seen[digit], cell))
                    return tuple(GivenPart(each, digit) for each in pair)
                seen[digit] = cell
    return ()


class _Search:
    """Looks for the shortest set while the allowance lasts.

    `best` is the shortest so far from which nothing can be left out, `known` one from which
    perhaps something can.
    """

    def __init__(self, selection: Selection, allowance: Allowance) -> None:
        self.best: tuple[Part, ...] | None = None
        self.known: tuple[Part, ...] | None = None
        self._selection, self._allowance = selection, allowance
        self._until: int | None = None
        self._place = {part: at for at, part in enumerate(selection.parts)}

    def run(self) -> None:
        """Plain reasons, then all others."""
        try:
            self._plain()
            if self.best is None:
                self._every_order()
        except BudgetSpent:
            pass

    def _plain(self) -> None:
        """A grid that nothing fits, such marks, then marks that the givens in their cells break."""
        parts = self._selection.parts
        self._try([])
        marks = [part for part in parts if isinstance(part, MarkPart)]
        for mark in marks:
            self._try([mark])
        if self.best is not None:
            return
        for mark in marks:
            cells = frozenset(mark.cells)
            own = [part for part in parts if isinstance(part, GivenPart) and part.cell in cells]
            self._try([mark, *own])

    def _try(self, parts: Sequence[Part]) -> None:
        core = self._clash(parts)
        if core is not None:
            self._keep(self._least(core))

    def _clash(self, parts: Sequence[Part]) -> tuple[Part, ...] | None:
        """Raises BudgetSpent, also where shorter sets have cost enough."""
        if self._until is not None and self._selection.conflicts > self._until:
            raise BudgetSpent
        return self._selection.clash(parts, self._allowance)

    def _every_order(self) -> None:
        for order in self._orders():
            core = self._clash(order)
            if core is None:
                return
            self._keep(self._least(core))
            if self.best is not None and len(self.best) < 2:
                return

    def _orders(self) -> Iterator[list[Part]]:
        """Parts, each time in another order: the last ones are left out first."""
        parts = list(self._selection.parts)
        yield parts
        yield parts[::-1]
        yield sorted(parts, key=lambda part: (len(part.cells), self._place[part]))
        dice = Random(0)  # noqa: S311 - the same in every run
        for _ in range(SHUFFLES):
            yield dice.sample(parts, len(parts))

    def _least(self, core: Sequence[Part]) -> tuple[Part, ...]:
        """What is left of a set when each part that can be left out is, the last ones first."""
        left, needed = list(core), list[Part]()
        if self.known is None:
            self.known = self._sorted(core)
        while left:
            part = left.pop()
            smaller = self._clash([*needed, *left])
            if smaller is None:
                needed.insert(0, part)
            else:
                kept = set(smaller)
                left = [each for each in left if each in kept]
                if self.known is not None and len(needed) + len(left) < len(self.known):
                    self.known = self._sorted([*needed, *left])
        return self._sorted(needed)

    def _keep(self, parts: tuple[Part, ...]) -> None:
        if self.best is None or len(parts) < len(self.best):
            self.best = parts
        if self._until is None:
            self._until = self._selection.conflicts + MORE_CONFLICTS

    def _sorted(self, parts: Sequence[Part]) -> tuple[Part, ...]:
        return tuple(sorted(parts, key=self._place.__getitem__))
