"""What may be spent on one puzzle: conflicts of the solver, seconds, and room in memory.

Whatever may take long is handed a `Deadline` and looks at it as it goes. Nothing is interrupted
from outside: where the budget is spent, `BudgetSpent` is raised, a proof ends `undecided`, and a
walk ends where it is.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import inf
from time import monotonic
from typing import Final

USUAL_SECONDS: Final = 60.0
"""Seconds for a puzzle where nothing else is said."""

MOST_LITERALS: Final = 6_000_000
"""Literals in the clauses of one formula: some 400 MiB, and as much again in the solver at most."""

MOST_IN_HOUSES: Final = 1_500_000
"""Literals in all houses of a base, which looks at no clock: some 100 MiB, and half a second.

That is room for 2,400 houses of a board of 25x25, which has 75 of its own.
"""

MOST_EDGES: Final = 500_000
"""Edges of one decision diagram: some 150 MiB while it is made."""


class BudgetSpent(Exception):  # noqa: N818 - not an error: the answer is "undecided"
    """Conflicts, seconds or room ran out before there was an answer."""


@dataclass(frozen=True, slots=True)
class Deadline:
    """A moment on a clock, both in seconds, past which nothing goes on."""

    at: float = inf
    clock: Callable[[], float] = monotonic

    @classmethod
    def after(cls, seconds: float, clock: Callable[[], float] = monotonic) -> "Deadline":
        """The moment so many seconds from now."""
        return cls(clock() + seconds, clock)

    @property
    def left(self) -> float:
        """Seconds up to it; below 0 where it is over."""
        return self.at - self.clock()

    def check(self) -> None:
        """Raises BudgetSpent where it is over."""
        if self.clock() > self.at:
            raise BudgetSpent


NEVER: Final = Deadline()
"""For work without a clock."""


@dataclass(frozen=True, slots=True)
class Budget:
    """How long to try for one puzzle: conflicts of the solver, and seconds for all there is to do.

    The conflicts end a proof at the same place on every machine; the seconds are for what is so
    large that nobody would wait for that.
    """

    conflicts: int = 2_000_000
    seconds: float = USUAL_SECONDS

    def deadline(self) -> Deadline:
        """The moment at which the seconds, counted from now, are over."""
        return Deadline.after(self.seconds)


USUAL: Final = Budget()
"""What a puzzle gets where nothing else is said."""
