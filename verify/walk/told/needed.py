"""From all that was done while a path was sought to what is needed of it, each with its reasons.

Backwards from the last digit: whatever a step rests on must be gone before it. Digits that leave
since another one is placed, everybody sees; where only a step struck them, that step is needed,
and of it no more than that.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import fsum, inf
from typing import Final, TypeAlias

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, every_digit, is_single
from verify.walk.facts.cells import Candidate, cells_of
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


def needed(premises: Premises, events: Sequence[Event], goal: Missing | None = None) -> list[Kept]:
    """The events without which a digit is not placed, in order.

    With a `goal`, digits that are missing from cells at the end, those without which these are
    not. The premises are found for the sheet of the givens alone.
    """
    found = _Backwards(premises, events)
    found.go(goal)
    return found.kept()


Place: TypeAlias = tuple[int, int]
"""Where a step is told: before which event, and by which event it was done."""


Use: TypeAlias = tuple[int, Candidate | None]
"""An event that takes a digit; for a strike also which digit of which cell."""


class _Backwards:
    """Goes back over the events, from what is wanted to what provides it.

    A strike is told just before the first step that rests on it, and by what is seen then: other
    digits may stand by that time which push more plainly. It may rest on digits placed before
    that step, and on strikes that happened before it did; so nothing goes round in a circle.
    """

    def __init__(self, premises: Premises, events: Sequence[Event]) -> None:
        self._notes = notes = premises.notes
        self._events = events
        self._start = tuple(notes.pencil)
        self._premises = premises
        self._late = True
        self._placing: dict[Candidate, int] = {}
        self._striking: dict[Candidate, list[int]] = {}
        self._wanted: dict[int, dict[Candidate, int]] = {}
        self._kept: dict[Place, Based] = {}
        self._told_at: dict[Use, Place] = {}
        self._uses: dict[Place, list[Use]] = {}
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
        self._late = goal is None
        for each in each_candidate(goal or {}):
            self._provide(each, len(self._events), len(self._events))
        for index in range(len(self._events) - 1, -1, -1):
            self._notes.deadline.check()
            event = self._events[index]
            if event.is_placing:
                if goal is None or index in self._wanted:
                    self._keep((index, index), self._placed(index, event), index, index)
            elif index in self._wanted:
                self._tell_strikes(index, event)

    def kept(self) -> list[Kept]:
        """What is needed, in order."""
        numbers = {place: number for number, place in enumerate(sorted(self._kept))}
        return [
            Kept(
                self._kept[place],
                tuple(sorted({numbers[self._told_at[use]] for use in self._uses[place]})),
            )
            for place in sorted(self._kept)
        ]

    def _tell_strikes(self, index: int, event: Event) -> None:
        """What is wanted of a strike, each part of it where it is wanted first."""
        groups: dict[int, Missing] = {}
        for (cell, digit), before in self._where_wanted(index, event).items():
            add(groups.setdefault(before, {}), cell, bit(digit))
        for before in sorted(groups, reverse=True):
            seen = replace(event, before=self._before(index, before))
            removes = sorted(groups[before].items())
            based = self._premises.based(
                seen, removes, lambda *c, at=before: self._price(c, index, at)
            )
            for each in each_candidate(groups[before]):
                self._told_at[index, each] = before, index
            self._keep((before, index), based, index, before)

    def _where_wanted(self, index: int, event: Event) -> dict[Candidate, int]:
        """For each digit that a strike takes and that counts, before which event it is told.

        What leaves a mark's cells with a single digit each is read off at once.
        """
        wanted = self._wanted[index]
        if not self._late:
            return dict.fromkeys(wanted, index)
        struck = dict(event.step.removes)
        read_off = [each for each in wanted if is_single(event.before[each[0]] & ~struck[each[0]])]
        first = min((wanted[each] for each in read_off), default=0)
        return wanted | dict.fromkeys(read_off, first)

    def _before(self, index: int, before: int) -> tuple[Mask, ...]:
        """The sheet on which a strike is told: as it was, and with what was placed since."""
        pencil = list(self._events[index].before)
        for event in self._events[index:before]:
            for cell, digit in event.step.places:
                pencil[cell] &= bit(digit)
                for seen in cells_of(self._notes.peers[cell]):
                    pencil[seen] &= ~bit(digit)
        return tuple(pencil)

    def _keep(self, place: Place, based: Based, origin: int, before: int) -> None:
        """Keeps a step, and provides what it rests on.

        It rests on digits placed `before` an event, and strikes from before its `origin`.
        """
        self._kept[place] = based
        self._uses[place] = []
        for each in each_candidate(dict(based.needs)):
            use = self._provide(each, origin, before)
            if use is not None:
                self._uses[place].append(use)

    def _is_given(self, candidate: Candidate) -> bool:
        cell, digit = candidate
        return not self._start[cell] >> digit & 1

    def _strikers(self, candidate: Candidate, origin: int) -> list[int]:
        return [index for index in self._striking.get(candidate, ()) if index < origin]

    def _price(self, candidate: Candidate, origin: int, before: int) -> float:
        """What it costs to tell that a digit is gone by then."""
        if self._is_given(candidate) or self._placing.get(candidate, before) < before:
            return 0.0
        return min(
            TOLD_ANYWAY
            if candidate in self._wanted.get(index, ())
            else cost_of(self._events[index].step)
            for index in self._strikers(candidate, origin)
        )

    def _provide(self, candidate: Candidate, origin: int, before: int) -> Use | None:
        """The event that takes a digit, and for a strike the digit: None where the givens do."""
        if self._is_given(candidate):
            return None
        index = self._placing.get(candidate, before)
        if index < before:
            self._wanted.setdefault(index, {})
            self._told_at[index, None] = index, index
            return index, None
        index = min(
            self._strikers(candidate, origin),
            key=lambda at: (
                candidate not in self._wanted.get(at, ()),
                at not in self._wanted,
                cost_of(self._events[at].step),
                at,
            ),
        )
        wanted = self._wanted.setdefault(index, {})
        wanted[candidate] = min(wanted.get(candidate, before), before)
        return index, candidate

    def _placed(self, index: int, event: Event) -> Based:
        """The plainest reason for a digit that was placed."""
        ((cell, digit),) = event.step.places
        reasons = sorted(self._reasons(cell, digit, event), key=lambda each: each[0])
        best, least = reasons[0][1], inf
        for effort, based in reasons:
            if effort >= least:
                break
            gone = each_candidate(dict(based.needs))
            price = effort + fsum(self._price(missing, index, index) for missing in gone)
            if price < least:
                best, least = based, price
        return best

    def _reasons(self, cell: Cell, digit: int, event: Event) -> Iterator[tuple[float, Based]]:
        """All ways to see a digit in its cell, each with its effort.

        Without an answer another digit may have taken even this one from its cell.
        """
        before = event.before
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
        if not before[cell] & ~bit(digit):
            step = Step(Technique.NAKED_SINGLE, Because((cell,), bit(digit)), places)
            yield COST[step.technique], Based(step, ((cell, every & ~bit(digit)),))
