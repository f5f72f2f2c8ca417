"""The best next step for somebody who has filled a part of the grid."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from verify.budget import NEVER, BudgetSpent, Deadline
from verify.pencil import Grid
from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.told.event import COST, Event
from verify.walk.told.needed import Kept, needed
from verify.walk.told.path import ToldPath, told_path
from verify.walk.told.premises import Premises
from verify.walk.told.search import singles

Effort: TypeAlias = tuple[float, int]


def with_placed(puzzle: Puzzle, grid: Grid) -> Puzzle:
    """The same puzzle with all digits of a grid as its givens; 0 where a cell is open."""
    return replace(puzzle, givens=tuple(grid))


def next_step(sheet: Puzzle, deadline: Deadline = NEVER) -> ToldPath:
    """The beginning of a path from what a puzzle gives, up to its first digit.

    It is one step, the plainest digit that can be placed by looking, where there is one. Else it
    begins with the first step of the told path, and goes on to the digit that the strikes lead
    to: only that can be noted in a grid without pencil marks. It is empty where no technique gets
    on, and `cut_short` where time was over.
    """
    try:
        kept = _plainest(sheet, deadline)
    except BudgetSpent:
        return ToldPath((), (), finished=False, cut_short=True)
    if kept is not None:
        return ToldPath((kept,), (), finished=False)
    path = told_path(sheet, deadline)
    return replace(path, steps=tuple(_beginning(path.steps)), finished=False)


def _beginning(steps: Sequence[Kept]) -> Sequence[Kept]:
    """All up to the first digit; the first step alone where there is none."""
    first = next((number for number, each in enumerate(steps) if each.step.places), 0)
    return steps[: first + 1]


def _plainest(sheet: Puzzle, deadline: Deadline) -> Kept | None:
    """The digit that is seen most easily; of several the first on the board."""
    notes = Notes(sheet, deadline=deadline)
    events = [Event(step, tuple(notes.pencil), notes.placed) for step in singles(notes)]
    kept = needed(Premises(Notes(sheet, deadline=deadline)), events)
    return min(kept, key=lambda each: (_effort(each, notes), each.step.places), default=None)


def _effort(kept: Kept, notes: Notes) -> Effort:
    """What it takes to see a digit: its technique, then the cells still open in its house."""
    step = kept.step
    still_open = sum(not notes.placed >> cell & 1 for cell in step.because.cells)
    return COST[step.technique], still_open
