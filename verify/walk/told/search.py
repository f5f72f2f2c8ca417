"""Seeks a path to the answer, step by step: singles as far as they lead, then what opens the most.

Of all that could be done on a sheet the step is taken that costs least for what it opens. Where
no step opens a digit at once, all that the cheapest technique sees is noted down; what was noted
in vain is left out afterwards (`verify.walk.told.needed`).
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, is_single
from verify.walk.facts.cells import Candidate, Cells, cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step, Technique
from verify.walk.suppose.refuting import refuted
from verify.walk.techniques.deep_ifs import deep_ifs
from verify.walk.techniques.either_way import either_way
from verify.walk.techniques.ifs import LONG, SHORT, explained
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles
from verify.walk.told.event import COST, Based, Event, cost_of
from verify.walk.walk import LADDER

STRIKING: Final = LADDER[3:-3]
"""The techniques that strike candidates by looking: all but singles and what is supposed."""

WORTH: Final = 0.3
"""What a step may cost more for each digit that it opens."""

MOST_OPENED: Final = 5
"""Digits past which a step is worth no more."""

MOST_EXPLAINED: Final = 4
"""Suppositions of one moment that are followed with their reasons to find the shortest."""

Propose = Callable[[Notes], Iterable[Step]]


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
            or (_supposed(notes) if supposing else [])
        )
        if not steps:
            break
        for step in steps:
            _take(notes, step, events)


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


def _supposed(notes: Notes) -> list[Step]:
    """The "if" that opens most; else what follows either way, or from a deep "if"."""
    found = refuted(notes, SHORT, LONG)
    if found is None:
        return _first_opening(notes, either_way(notes)) or _first_opening(notes, deep_ifs(notes))
    technique = Technique.SHORT_IF if found.rounds <= SHORT else Technique.LONG_IF
    order = sorted(found.candidates, key=lambda each: (-leads_to(notes, each), each))
    best = found.only(order[:MOST_EXPLAINED])
    steps = [explained(technique, each) for each in best.followed(notes)]
    return [min(steps, key=lambda step: cost_of(step) - WORTH * leads_to(notes, _of(step)))]


def _of(step: Step) -> Candidate:
    ((cell, mask),) = step.removes
    return cell, mask.bit_length() - 1


def _first_opening(notes: Notes, steps: Iterable[Step]) -> list[Step]:
    """Of some steps the one that leads on furthest."""
    found = list(steps)
    if not found:
        return []
    return [max(found, key=lambda step: (closure(notes, step.removes), -cost_of(step)))]


def leads_to(notes: Notes, candidate: Candidate) -> int:
    """How many digits singles alone can place after a candidate is struck."""
    cell, digit = candidate
    return closure(notes, ((cell, bit(digit)),))


def closure(notes: Notes, removes: Iterable[tuple[Cell, Mask]]) -> int:
    """How many digits singles alone can place, one after another, after some strikes."""
    pencil, placed = list(notes.pencil), notes.placed
    waiting: list[Cell] = []
    for cell, mask in removes:
        pencil[cell] &= ~mask
    stirred = True
    count = 0
    while stirred:
        stirred = False
        waiting = [cell for cell in cells_of(notes.every_cell & ~placed) if is_single(pencil[cell])]
        waiting += _hidden(notes, pencil, placed)
        for cell in waiting:
            if placed >> cell & 1 or not is_single(pencil[cell]):
                continue
            stirred = True
            count += 1
            placed |= 1 << cell
            for other in cells_of(notes.peers[cell]):
                pencil[other] &= ~pencil[cell]
    return count


def _hidden(notes: Notes, pencil: list[Mask], placed: Cells) -> list[Cell]:
    """Cells that alone can take a digit of a house; all else is struck from them."""
    found: list[Cell] = []
    for house, cells in notes.full_sets:
        if not cells & ~placed:
            continue
        once = twice = 0
        for cell in house.cells:
            twice |= once & pencil[cell]
            once |= pencil[cell]
        alone = once & ~twice
        if alone:
            for cell in house.cells:
                if (
                    pencil[cell] & alone
                    and not placed >> cell & 1
                    and is_single(pencil[cell] & alone)
                ):
                    pencil[cell] &= alone
                    found.append(cell)
    return found
