"""Seeks a path to the answer, step by step: singles as far as they lead, then what opens the most.

Of all that could be done on a sheet the step is taken that costs least for what it opens. Where
no step opens a digit at once, all that the cheapest technique sees is noted down; what was noted
in vain is left out afterwards (`verify.walk.told.needed`).
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, digits_of, is_single
from verify.walk.facts.cells import Candidate, Cells
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles
from verify.walk.told.event import COST, Based, Event, cost_of
from verify.walk.told.suppositions import supposed
from verify.walk.walk import LADDER

STRIKING: Final = LADDER[3:-3]
"""The techniques that strike candidates by looking: all but singles and what is supposed."""

WORTH: Final = 0.3
"""What a step may cost more for each digit that it opens."""

MOST_OPENED: Final = 5
"""Digits past which a step is worth no more."""


def search(
    notes: Notes, events: list[Event], offered: Sequence[Based] = (), *, supposing: bool = True
) -> None:
    """Does all it can on a sheet up to its end, or to where nothing gets on, and notes it down.

    Steps that are `offered` are taken where nothing else gets on and they stand; only then is
    anything supposed, and nothing at all where `supposing` is false. Raises BudgetSpent.
    """
    waiting = list(offered)
    while notes.open and not notes.broken and not notes.lacks_a_place:
        notes.deadline.check()
        steps = (
            list(_singles(notes))
            or _striking(notes)
            or _offered(notes, waiting)
            or (supposed(notes) if supposing else [])
        )
        if not steps:
            break
        for step in steps:
            _take(notes, step, events)


def search_a_digit(notes: Notes, events: list[Event]) -> list[Step]:
    """Strikes up to where digits can be placed by looking, and notes it down; these digits.

    There are none where nothing gets on. Raises BudgetSpent.
    """
    while notes.open:
        notes.deadline.check()
        digits = list(_singles(notes))
        steps = [] if digits else _striking(notes) or supposed(notes)
        if not steps:
            return digits
        for step in steps:
            _take(notes, step, events)
    return []


def _take(notes: Notes, step: Step, events: list[Event]) -> None:
    """Does what of a step was not done yet."""
    removes = notes.fresh(step.removes)
    places = tuple(each for each in step.places if not notes.placed >> each[0] & 1)
    if removes or places:
        step = replace(step, removes=removes, places=places)
        events.append(Event(step, tuple(notes.pencil), notes.placed))
        notes.apply([step])


def _singles(notes: Notes) -> Iterator[Step]:
    """Digits that can be placed by looking."""
    return iter({step.places: step for step in chain(*_each_kind(notes))}.values())


def _each_kind(notes: Notes) -> Iterator[list[Step]]:
    """The singles of each kind; the later is the plainer."""
    for find in (naked_singles, hidden_singles, last_cells):
        yield list(find(notes))


def _striking(notes: Notes) -> list[Step]:
    """The step that opens most for its cost; else all of the cheapest technique."""
    best: tuple[float, Step] | None = None
    first: list[Step] = []
    for find in STRIKING:
        notes.deadline.check()
        steps = list(find(notes))
        if not steps:
            continue
        least = COST[steps[0].technique]
        if best is not None and best[0] < least - WORTH * MOST_OPENED:
            break
        first = first or steps
        for step in steps:
            opened = opens(notes, step.removes)
            if opened:
                value = cost_of(step) - WORTH * min(opened, MOST_OPENED)
                if best is None or value < best[0]:
                    best = value, step
    return [best[1]] if best is not None else first


def opens(notes: Notes, removes: Iterable[tuple[Cell, Mask]]) -> int:
    """How many digits can be placed at once after some strikes, and could not before."""
    found: set[Candidate] = set()
    struck: dict[int, Cells] = {}
    for cell, mask in removes:
        left = notes.pencil[cell] & ~mask
        if is_single(left) and not notes.placed >> cell & 1:
            found.add((cell, left.bit_length() - 1))
        for digit in digits_of(mask & notes.pencil[cell]):
            struck[digit] = struck.get(digit, 0) | 1 << cell
    for digit, cells in struck.items():
        left_for = notes.where[digit] & ~cells
        for _, within in notes.full_sets:
            if within & cells and is_single(left_for & within):
                found.add(((left_for & within).bit_length() - 1, digit))
    return len(found)


def _offered(notes: Notes, waiting: list[Based]) -> list[Step]:
    """The first of some steps that stands on the sheet and strikes something."""
    for based in waiting:
        if notes.fresh(based.step.removes) and based.stands_on(notes.pencil):
            waiting.remove(based)
            return [based.step]
    return []
