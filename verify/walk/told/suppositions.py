"""Which suppositions are told where looking gets no further: those that open most for their length.

One refuted candidate alone seldom opens much, so they are weighed in groups: all that fail of one
cell, or of one digit in a house, and each by itself.
"""

from collections.abc import Iterable, Iterator, Sequence
from math import fsum
from typing import Final, TypeAlias

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of
from verify.walk.facts.cells import Candidate, cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step, Technique
from verify.walk.suppose.refuting import Refuted, refuted
from verify.walk.suppose.trial import Trial
from verify.walk.techniques.deep_ifs import deep_ifs
from verify.walk.techniques.either_way import either_way
from verify.walk.techniques.ifs import LONG, SHORT, explained
from verify.walk.told.event import COST, LINK, cost_of

Group: TypeAlias = tuple[Candidate, ...]
"""Candidates that are struck one after the other, each because it fails when it is supposed."""

EAGER: Final = 0.85
"""The power of a cost: below 1, as who has begun to follow a thought gladly ends it.

Tried on a dozen puzzles with few givens: at 0.85 they need the fewest suppositions.
"""


def supposed(notes: Notes) -> list[Step]:
    """The "ifs" that open most for what they cost; else what follows either way, or deep down."""
    found = refuted(notes, LONG, LONG)
    if found is None:
        return _best(notes, list(either_way(notes))) or _best(notes, list(deep_ifs(notes)))
    best = found.only(_best_group(notes, found))
    return [
        explained(_technique(depth), each)
        for each, depth in zip(best.followed(notes), best.depths, strict=True)
    ]


def _technique(depth: int) -> Technique:
    """What an "if" is called that fails after so many rounds of consequences."""
    return Technique.SHORT_IF if depth <= SHORT else Technique.LONG_IF


def _best_group(notes: Notes, found: Refuted) -> Group:
    """Of all groups the one that opens most for what it costs at least."""
    costs = [COST[_technique(depth)] + LINK * depth for depth in found.depths]
    cost = dict(zip(found.candidates, costs, strict=True))
    groups = tuple(dict.fromkeys(_groups(notes, found.candidates)))
    opened = opened_by(notes, [[(cell, bit(digit)) for cell, digit in each] for each in groups])

    def worth(at: int) -> tuple[float, int]:
        return opened[at] / fsum(cost[each] for each in groups[at]) ** EAGER, -at

    return groups[max(range(len(groups)), key=worth)]


def _groups(notes: Notes, candidates: Iterable[Candidate]) -> Iterator[Group]:
    """Each candidate by itself; all of a cell; all of a digit in a house."""
    fail = dict.fromkeys(candidates)
    yield from ((each,) for each in fail)
    for cell in cells_of(notes.open):
        yield from _several(
            (cell, digit) for digit in digits_of(notes.pencil[cell]) if (cell, digit) in fail
        )
    for house in notes.full:
        for digit in digits_of(notes.unplaced(house)):
            spots = cells_of(notes.spots(digit, house))
            yield from _several((cell, digit) for cell in spots if (cell, digit) in fail)


def _several(candidates: Iterable[Candidate]) -> Iterator[Group]:
    """The candidates as a group, if there are two or more."""
    group = tuple(candidates)
    if len(group) > 1:
        yield group


def _best(notes: Notes, steps: Sequence[Step]) -> list[Step]:
    """Of some steps the one that opens most for what it costs."""
    if not steps:
        return []
    opened = opened_by(notes, [step.removes for step in steps])
    numbers = range(len(steps))
    return [steps[max(numbers, key=lambda at: (opened[at] / cost_of(steps[at]), -at))]]


def opened_by(notes: Notes, struck: Sequence[Sequence[tuple[Cell, Mask]]]) -> list[int]:
    """How many candidates go once some have gone, on each of several sheets of their own.

    By singles, marks and locked candidates, as far as these lead.
    """
    import numpy

    trial = Trial.without(notes, struck)
    while trial.moving:
        trial.advance()
    before = sum(mask.bit_count() for mask in notes.pencil)
    return [before - int(left) for left in numpy.bitwise_count(trial.sheets).sum(axis=1)]
