"""What is spare: givens and marks that could each be left out, the answer still the only one.

Whether there is another answer is asked with all parts, then with all but one. Where there is
none the solver names the parts that it needed, so every other part is spare as well.
"""

from contextlib import suppress
from dataclasses import dataclass
from typing import Final

from verify.budget import NEVER, BudgetSpent, Deadline
from verify.pencil import Grid
from verify.proof.parts import Part, parts_of
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


def spare_parts(
    puzzle: Puzzle, answer: Grid, deadline: Deadline = NEVER, conflicts: int = MOST_CONFLICTS
) -> Spare:
    """What is spare in a puzzle that was proved to have this one answer.

    What the budget does not reach is told as undecided.
    """
    every = parts_of(puzzle)
    spare, tried = set[Part](), set[Part | None]()
    with suppress(BudgetSpent):
        selection = Selection(puzzle, deadline)
        selection.rule_out(answer, puzzle.board.cells)
        for left_out in (None, *every):
            deadline.check()
            if left_out not in spare:
                with suppress(BudgetSpent):
                    spare |= _spared(selection, left_out, Allowance(conflicts, deadline))
                    tried.add(left_out)
    undecided = (part for part in every if part not in spare | tried)
    return Spare(tuple(part for part in every if part in spare), tuple(undecided))


def _spared(selection: Selection, left_out: Part | None, allowance: Allowance) -> set[Part]:
    """The parts that no one needs where this one is left out; none where it leaves other answers.

    Raises BudgetSpent.
    """
    others = [part for part in selection.parts if part != left_out]
    needed = selection.other_clash(others, allowance)
    return set() if needed is None else set(selection.parts).difference(needed)
