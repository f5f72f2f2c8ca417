"""How to begin: a step that a rule makes possible from the givens alone, and what follows at once.

Unlike the first steps of a walk these rest on nothing but the givens and one another, so that a
newcomer can check them on the empty grid.
"""

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Final

from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step
from verify.walk.techniques.singles import hidden_singles, last_cells, naked_singles
from verify.walk.walk import LADDER

TRIED: Final = 40
"""Steps by the rule that are tried before one is taken that places nothing."""

EASY: Final = 8
"""Techniques of the walk's ladder that a newcomer can be shown: those of a single house or mark."""


def opening(puzzle: Puzzle, rules: frozenset[str]) -> tuple[Step, ...]:
    """The step and a digit that can be placed after it and not before; the step alone where it
    places none. Where the rules make no easy step possible, up to two digits that can be placed.
    """
    before = {place for step in _placing(Notes(puzzle)) for place in step.places}
    steps = _by_rule(puzzle, rules)[:TRIED]
    for step in steps:
        notes = Notes(puzzle)
        notes.apply([step])
        for placing in () if step.places else _placing(notes):
            if not before.issuperset(placing.places):
                return (step, placing)
    return tuple(steps[:1]) or _two_digits(puzzle)


def _by_rule(puzzle: Puzzle, rules: frozenset[str]) -> list[Step]:
    """What the easiest technique finds by one of the rules; short steps first."""
    notes = Notes(puzzle)
    for find in LADDER[:EASY]:
        steps = [step for step in find(notes) if _rests_on(step, rules)]
        if steps:
            return sorted(steps, key=lambda step: (len(step.because.cells), step.because.cells))
    return []


def _rests_on(step: Step, rules: frozenset[str]) -> bool:
    """Whether a step would not be there without one of the rules."""
    return step.rule in rules or any(link.rule in rules for link in step.because.links)


def _placing(notes: Notes) -> Iterator[Step]:
    """The digits that can be placed by looking."""
    found: Iterable[Step] = chain(last_cells(notes), hidden_singles(notes), naked_singles(notes))
    return iter(found)


def _two_digits(puzzle: Puzzle) -> tuple[Step, ...]:
    """The first digit that can be placed, and the first after that."""
    notes = Notes(puzzle)
    steps: list[Step] = []
    while len(steps) < 2 and (step := next(_placing(notes), None)) is not None:
        notes.apply([step])
        steps.append(step)
    return tuple(steps)
