"""The told path of a puzzle: what to do one after the other, and why, with nothing to spare."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from verify.budget import NEVER, BudgetSpent, Deadline
from verify.pencil import Mask, every_digit
from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import DeadEnd, Step
from verify.walk.told.event import SUPPOSED, Based, Event, Missing, cost_of
from verify.walk.told.leaving_out import left_without
from verify.walk.told.needed import Kept, needed
from verify.walk.told.ordering import in_telling_order
from verify.walk.told.premises import Premises
from verify.walk.told.search import search
from verify.walk.told.sooner import placed_sooner
from verify.walk.told.together import together

MOST_SORTED: Final = 4
"""Times that a path is put in order: in its new order it may need less."""

MOST_TRIED: Final = 5
"""Suppositions that are left out in vain before all others count as needed."""


@dataclass(frozen=True, slots=True)
class ToldPath:
    """Steps in the order in which they are told, each of which is needed.

    `pencil` holds the marks at the end. `finished` where every cell is placed and the rules are
    kept; `cut_short` where time was over. `dead_end` is the contradiction of a puzzle without
    answer that the path leads to, or None.
    """

    steps: tuple[Kept, ...]
    pencil: tuple[Mask, ...]
    finished: bool
    cut_short: bool = False
    dead_end: DeadEnd | None = None


def told_path(puzzle: Puzzle, deadline: Deadline = NEVER) -> ToldPath:
    """Seeks the path, leaves out what is not needed, and puts the rest in order.

    Where the deadline comes first it is empty, and `cut_short`: what is needed is known at the end.
    """
    try:
        sought = _Search(puzzle, deadline)
        sought.go()
        sought.with_fewer_ifs()
        return sought.path()
    except BudgetSpent:
        return ToldPath((), (), finished=False, cut_short=True)


def as_told(puzzle: Puzzle, steps: Sequence[Step]) -> ToldPath:
    """Some steps, each of which stands after those before it, as a path that goes no further."""
    notes = Notes(puzzle)
    premises = Premises(notes)
    told: list[Kept] = []
    for step in steps:
        event = Event(step, tuple(notes.pencil), notes.placed)
        told.append(Kept(premises.based(event, step.removes, lambda cell, digit: 0.0), ()))
        notes.apply([step])
    return ToldPath(tuple(told), tuple(notes.pencil), finished=False)


class _Search:
    """What was done on a sheet of a puzzle, and what is needed of it."""

    def __init__(self, puzzle: Puzzle, deadline: Deadline) -> None:
        self._puzzle = puzzle
        self._deadline = deadline
        self._notes = Notes(puzzle, deadline=deadline)
        self._events: list[Event] = []
        self._premises = Premises(Notes(puzzle, deadline=deadline))

    def go(self) -> None:
        """Goes to the end, or to where nothing gets on. Raises BudgetSpent."""
        search(self._notes, self._events)

    def path(self) -> ToldPath:
        """What is needed, in the order in which it is told. Raises BudgetSpent."""
        notes, end = self._notes, _dead_end(self._notes)
        goal = None if end is None else _goal(notes, end)
        kept = needed(self._premises, self._events, goal)
        # Digits that contradict each other stand only in the order in which they were found.
        for _ in range(MOST_SORTED if goal is None else 0):
            ordered = in_telling_order(kept, self._puzzle.board)
            steps = placed_sooner(ordered, self._puzzle)
            again = needed(self._premises, _replayed(self._puzzle, steps), goal)
            kept, before = again, kept
            if len(kept) == len(before):
                break
        told = tuple(together(kept, self._puzzle))
        return ToldPath(told, tuple(notes.pencil), notes.finished, dead_end=end)

    def with_fewer_ifs(self) -> None:
        """Leaves out suppositions without which the path ends all the same.

        Raises BudgetSpent.
        """
        in_vain: list[Based] = []
        while self._notes.finished and self._leaves_one_out(in_vain):
            pass

    def _leaves_one_out(self, in_vain: list[Based]) -> bool:
        """Goes again without one supposition, the most promising first, until the path ends."""
        supposed, order = self._supposed()
        for left_out in order:
            if len(in_vain) == MOST_TRIED:
                return False
            if left_out in in_vain:
                continue
            notes = Notes(self._puzzle, deadline=self._deadline)
            events: list[Event] = []
            rest = [each for each in supposed if each != left_out]
            search(notes, events, rest, supposing=False)
            if notes.finished:
                self._notes, self._events = notes, events
                return True
            in_vain.append(left_out)
        return False

    def _supposed(self) -> tuple[list[Based], list[Based]]:
        """The suppositions that are needed, as they come, and those first that may be spared."""
        if not any(each.step.technique in SUPPOSED for each in self._events):
            return [], []
        kept = needed(self._premises, self._events)
        supposed = [each.based for each in kept if each.step.technique in SUPPOSED]
        left = left_without(Notes(self._puzzle, deadline=self._deadline), kept, supposed)
        numbers = sorted(
            range(len(left)), key=lambda at: (left[at], -cost_of(supposed[at].step), at)
        )
        return supposed, [supposed[at] for at in numbers]


def _replayed(puzzle: Puzzle, steps: Iterable[Step]) -> list[Event]:
    """The same steps as they happen one after the other from the givens on."""
    notes = Notes(puzzle)
    events: list[Event] = []
    for step in steps:
        events.append(Event(step, tuple(notes.pencil), notes.placed))
        notes.apply([step])
    return events


def _dead_end(notes: Notes) -> DeadEnd | None:
    """The contradiction on a sheet, if there is one."""
    for cell, mask in enumerate(notes.pencil):
        if not mask:
            return DeadEnd(cell)
    for house, cells in notes.full_sets:
        for digit in range(1, notes.digits + 1):
            if not notes.where[digit] & cells:
                return DeadEnd(None, digit, house)
    return None


def _goal(notes: Notes, end: DeadEnd) -> Missing:
    """What must be missing for it."""
    if end.cell is not None:
        return {end.cell: every_digit(notes.digits)}
    return dict.fromkeys(end.house.cells, 1 << end.digit) if end.house else {}
