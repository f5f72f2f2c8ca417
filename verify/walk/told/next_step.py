"""The best next step for somebody who has filled a part of the grid."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import fsum
from typing import TypeAlias

from verify.budget import NEVER, BudgetSpent, Deadline
from verify.pencil import Grid
from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.told.event import COST, Event, cost_of
from verify.walk.told.needed import Kept, needed
from verify.walk.told.path import ToldPath
from verify.walk.told.premises import Premises
from verify.walk.told.search import search_a_digit
from verify.walk.told.together import together

Effort: TypeAlias = tuple[float, float, int]


def with_placed(puzzle: Puzzle, grid: Grid) -> Puzzle:
    """The same puzzle with all digits of a grid as its givens; 0 where a cell is open."""
    return replace(puzzle, givens=tuple(grid))


def next_step(sheet: Puzzle, deadline: Deadline = NEVER) -> ToldPath:
    """The beginning of a path from what a puzzle gives: to one digit, with all that it rests on.

    The digit is one that can be placed by looking, if any can; else one of those that the search
    opens first. Only a digit can be noted in a grid without pencil marks. The path is empty where
    no technique gets on, and `cut_short` where time was over.
    """
    try:
        ways = list(_ways(sheet, deadline))
    except BudgetSpent:
        return ToldPath((), (), finished=False, cut_short=True)
    notes = Notes(sheet)
    easiest = min(ways, key=lambda way: (_effort(way, notes), way[-1].step.places), default=())
    return ToldPath(tuple(together(easiest, sheet)), (), finished=False)


def _ways(sheet: Puzzle, deadline: Deadline) -> Iterator[Sequence[Kept]]:
    """For each digit that could be placed first, what leads to it; the digit last."""
    notes, events = Notes(sheet, deadline=deadline), list[Event]()
    digits = search_a_digit(notes, events)
    premises = Premises(Notes(sheet, deadline=deadline))
    for step in digits:
        placing = Event(step, tuple(notes.pencil), notes.placed)
        yield needed(premises, [*events, placing])


def _effort(way: Sequence[Kept], notes: Notes) -> Effort:
    """What it takes to see a digit: the strikes, its technique, the cells open in its house."""
    *strikes, last = [kept.step for kept in way]
    still_open = sum(not notes.placed >> cell & 1 for cell in last.because.cells)
    return fsum(map(cost_of, strikes)), COST[last.technique], still_open
