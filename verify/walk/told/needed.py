"""From all that was done while a path was sought to what is needed of it, each with its reasons.

Backwards from the last digit: whatever a step rests on must be gone before it. Digits that leave
since another one is placed, everybody sees; where only a step struck them, that step is needed,
and of it no more than that.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, every_digit, is_single
from verify.walk.facts.cells import Candidate, cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.event import COST, Based, Event, Missing, add, cost_of, each_candidate
from verify.walk.told.premises import Premises

IN_A_LINE: Final = 0.1
"""What it costs more to see a digit's last place in a line than in a box."""

OPEN_CELL: Final = 0.02
"""What each other open cell of the house costs."""

TOLD_ANYWAY: Final = 0.05
"""What it costs to rest on a step that is told for the sake of a later one."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A step that is needed, what it rests on, and which steps before it make that so.

    `uses` are numbers in the list that it is part of, the first one 0.
    """

    based: Based
    uses: tuple[int, ...]

    @property
    def step(self) -> Step:
        """The step."""
        return self.based.step


def needed(notes: Notes, events: Sequence[Event], goal: Missing | None = None) -> list[Kept]:
    """The events without which a digit is not placed, in order.

    With a `goal`, digits that are missing from cells at the end, those without which these are
    not. `notes` is the sheet of the givens alone.
    """
    found = _Backwards(notes, events)
    found.go(goal)
    return found.kept()


class _Backwards:
    """Goes back over the events, from what is wanted to what provides it."""

    def __init__(self, notes: Notes, events: Sequence[Event]) -> None:
        self._notes = notes
        self._events = events
        self._start = tuple(notes.pencil)
        self._premises = Premises(notes)
        self._placing: dict[Candidate, int] = {}
        self._striking: dict[Candidate, list[int]] = {}
        self._wanted: dict[int, Missing] = {}
        self._kept: dict[int, tuple[Based, frozenset[int]]] = {}
        for index, event in enumerate(events):
            self._note_down(index, event)

    def _note_down(self, index: int, event: Event) -> None:
        """Which digits an event takes from which cells."""
        for each in each_candidate(dict(event.step.removes)):
            self._striking.setdefault(each, []).append(index)
        for cell, digit in event.step.places:
            for other in digits_of(every_digit(self._notes.digits) & ~bit(digit)):
                self._placing.setdefault((cell, other), index)
            for seen in cells_of(self._notes.peers[cell]):
                self._placing.setdefault((seen, digit), index)

    def go(self, goal: Missing | None) -> None:
        """Keeps what is needed: for every digit that is placed, or for the goal alone."""
        for each in each_candidate(goal or {}):
            self._provider(each, len(self._events))
        for index in range(len(self._events) - 1, -1, -1):
            event = self._events[index]
            if event.is_placing:
                if goal is None or index in self._wanted:
                    self._keep(index, self._placed(index, event))
            elif index in self._wanted:
                removes = sorted(self._wanted[index].items())
                self._keep(
                    index,
                    self._premises.based(event, removes, lambda *c, at=index: self._price(c, at)),
                )

    def kept(self) -> list[Kept]:
        """What is needed, in order."""
        numbers = {index: number for number, index in enumerate(sorted(self._kept))}
        return [
            Kept(based, tuple(sorted(numbers[use] for use in uses)))
            for _, (based, uses) in sorted(self._kept.items())
        ]

    def _keep(self, index: int, based: Based) -> None:
        uses = {self._provider(each, index) for each in each_candidate(dict(based.needs))}
        self._kept[index] = based, frozenset(use for use in uses if use is not None)

    def _is_given(self, candidate: Candidate) -> bool:
        cell, digit = candidate
        return not self._start[cell] >> digit & 1

    def _strikers(self, candidate: Candidate, before: int) -> list[int]:
        return [index for index in self._striking.get(candidate, ()) if index < before]

    def _price(self, candidate: Candidate, before: int) -> float:
        """What it costs to tell that a digit is gone before an event."""
        if self._is_given(candidate) or self._placing.get(candidate, before) < before:
            return 0.0
        by = self._strikers(candidate, before)
        return min(
            TOLD_ANYWAY if index in self._wanted else cost_of(self._events[index].step)
            for index in by
        )

    def _provider(self, candidate: Candidate, before: int) -> int | None:
        """The event that takes a digit before another event: None where the givens do."""
        if self._is_given(candidate):
            return None
        index = self._placing.get(candidate, before)
        if index >= before:
            by = self._strikers(candidate, before)
            index = min(
                by, key=lambda at: (at not in self._wanted, cost_of(self._events[at].step), at)
            )
            cell, digit = candidate
            add(self._wanted.setdefault(index, {}), cell, bit(digit))
        else:
            self._wanted.setdefault(index, {})
        return index

    def _placed(self, index: int, event: Event) -> Based:
        """The plainest reason for a digit that was placed."""
        ((cell, digit),) = event.step.places
        before = event.before

        def price(each: tuple[float, Based]) -> float:
            effort, based = each
            gone = {missing for missing in each_candidate(dict(based.needs))}
            return effort + sum(self._price(missing, index) for missing in gone)

        return min(self._reasons(cell, digit, event, before), key=price)[1]

    def _reasons(
        self, cell: Cell, digit: int, event: Event, before: Sequence[Mask]
    ) -> Iterator[tuple[float, Based]]:
        """All ways to see a digit in its cell, each with its effort."""
        places = ((cell, digit),)
        every = every_digit(self._notes.digits)
        for house, cells in self._notes.full_sets:
            others = [other for other in house.cells if other != cell]
            if not cells >> cell & 1 or any(before[other] >> digit & 1 for other in others):
                continue
            still_open = sum(not event.placed >> other & 1 for other in others)
            technique = Technique.HIDDEN_SINGLE if still_open else Technique.LAST_CELL
            step = Step(technique, Because(house.cells, bit(digit), (house,)), places)
            needs = tuple(sorted((other, bit(digit)) for other in others))
            line = IN_A_LINE if house.kind in ("row", "column") else 0.0
            yield COST[technique] + line + OPEN_CELL * still_open, Based(step, needs)
        if is_single(before[cell]):
            step = Step(Technique.NAKED_SINGLE, Because((cell,), bit(digit)), places)
            yield COST[step.technique], Based(step, ((cell, every & ~bit(digit)),))
