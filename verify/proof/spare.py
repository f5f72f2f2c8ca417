"""What is spare: givens and marks that could each be left out, the answer still the only one.

Whether there is another answer is asked with all parts, then with all but one. Where there is
none the solver names the parts that it needed, so every other part is spare as well. So it is
with a mark that says less: it stands for the one in the manifest.
"""

from collections.abc import Collection, Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Final

from verify.budget import NEVER, BudgetSpent, Deadline
from verify.pencil import Grid
from verify.proof.parts import MarkPart, Part, parts_of
from verify.proof.selection import Selection
from verify.proof.solver import Allowance
from verify.puzzle import Puzzle

MOST_CONFLICTS: Final = 100_000
"""Conflicts of the solver for one part, so that a hard one leaves time for the others."""


@dataclass(frozen=True, slots=True)
class Spare:
    """Parts that could each be left out, and parts of which that is undecided.

    Each alone: two that are spare can't always be left out together.
    """

    parts: tuple[Part, ...]
    undecided: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class Exchange:
    """Marks that go, and marks that say less and come for them; of these there may be none."""

    gone: tuple[Part, ...]
    left: tuple[MarkPart, ...] = ()


class Sparing:
    """The parts of a puzzle that was proved to have this one answer, and what it can spare.

    Raises BudgetSpent where there is too much of it.
    """

    def __init__(self, puzzle: Puzzle, answer: Grid, deadline: Deadline) -> None:
        self._deadline = deadline
        self._selection = Selection(puzzle, deadline)
        self._selection.rule_out(answer, puzzle.board.cells)
        self.kept: tuple[Part, ...] = self._selection.parts
        self._enough: frozenset[Part] = frozenset(self.kept)

    def enough_of(self, parts: Iterable[Part], conflicts: int) -> frozenset[Part] | None:
        """Some of the parts that leave no other answer; None where all together leave one.

        Raises BudgetSpent.
        """
        allowance = Allowance(conflicts, self._deadline)
        found = self._selection.other_clash(parts, allowance)
        return None if found is None else frozenset(found)

    def spares(self, exchange: Exchange, conflicts: int = MOST_CONFLICTS) -> bool:
        """Whether there is one answer after the exchange too. Raises BudgetSpent."""
        return self._after(exchange, conflicts) is not None

    def spare(self, exchange: Exchange, conflicts: int = MOST_CONFLICTS) -> bool:
        """Makes the exchange where there is one answer after it too, and says so.

        Raises BudgetSpent.
        """
        enough = self._after(exchange, conflicts)
        if enough is not None:
            self.kept, self._enough = self._exchanged(exchange), enough
        return enough is not None

    def _after(self, exchange: Exchange, conflicts: int) -> frozenset[Part] | None:
        """What of the exchanged parts leaves no other answer; None where all leave one."""
        self._deadline.check()
        if self._enough.isdisjoint(exchange.gone):
            return self._enough
        for mark in exchange.left:
            self._selection.add(mark)
        return self.enough_of(self._exchanged(exchange), conflicts)

    def _exchanged(self, exchange: Exchange) -> tuple[Part, ...]:
        stays = (part for part in self.kept if part not in exchange.gone)
        return tuple(dict.fromkeys((*stays, *exchange.left)))


def spare_parts(
    puzzle: Puzzle, answer: Grid, deadline: Deadline = NEVER, conflicts: int = MOST_CONFLICTS
) -> Spare:
    """What is spare in a puzzle that was proved to have this one answer.

    What the budget does not reach is told as undecided.
    """
    every = parts_of(puzzle)
    spare, tried = set[Part](), set[Part | None]()
    with suppress(BudgetSpent):
        sparing = Sparing(puzzle, answer, deadline)
        for left_out in (None, *every):
            deadline.check()
            if left_out not in spare:
                with suppress(BudgetSpent):
                    others = [part for part in every if part != left_out]
                    needed = sparing.enough_of(others, conflicts)
                    spare |= set() if needed is None else set(every) - needed
                    tried.add(left_out)
    undecided = (part for part in every if part not in spare | tried)
    return Spare(tuple(part for part in every if part in spare), tuple(undecided))


def spare_exchanges(
    puzzle: Puzzle,
    answer: Grid,
    exchanges: Sequence[Exchange],
    deadline: Deadline = NEVER,
    conflicts: int = MOST_CONFLICTS,
) -> tuple[Collection[Exchange], Collection[Exchange]]:
    """The exchanges that each leave this one answer, and those of which that is undecided."""
    spare, tried = list[Exchange](), set[Exchange]()
    with suppress(BudgetSpent):
        sparing = Sparing(puzzle, answer, deadline)
        for exchange in exchanges:
            deadline.check()
            with suppress(BudgetSpent):
                if sparing.spares(exchange, conflicts):
                    spare.append(exchange)
                tried.add(exchange)
    return spare, [exchange for exchange in exchanges if exchange not in tried]
