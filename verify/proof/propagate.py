"""What the marks alone strike, before any formula is built."""

from collections.abc import Sequence

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.pencil import ABSENT, Mask, bit, every_digit
from verify.puzzle import Puzzle
from verify.rule import Constraint


def penciled(puzzle: Puzzle) -> list[Mask]:
    """The candidates of every cell: the given alone, or every digit."""
    everything = every_digit(puzzle.board.digits)
    pencil = [bit(digit) if digit else everything for digit in puzzle.givens]
    for cell in puzzle.board.absent:
        pencil[cell] = ABSENT
    return pencil


def propagate(
    constraints: Sequence[Constraint], pencil: list[Mask], deadline: Deadline = NEVER
) -> bool:
    """Strikes from `pencil`, in place, all that constraints strike one by one, again and again.

    Returns False as soon as a cell has no candidate left: then there is no answer. Raises
    BudgetSpent after the deadline.
    """
    speaking: dict[Cell, list[int]] = {}
    for number, constraint in enumerate(constraints):
        for cell in constraint.cells:
            speaking.setdefault(cell, []).append(number)
    waiting = dict.fromkeys(range(len(constraints)))
    while waiting:
        deadline.check()
        number = next(iter(waiting))
        del waiting[number]
        for strike in constraints[number].strikes(pencil):
            for cell, mask in strike.removes:
                if pencil[cell] & mask:
                    pencil[cell] &= ~mask
                    if not pencil[cell]:
                        return False
                    waiting.update(dict.fromkeys(speaking[cell]))
    return True
