"""The steps of a walk that matter: those without which a later step would not stand."""

from collections.abc import Iterator
from typing import Final

from verify.board import Cell
from verify.pencil import Mask
from verify.walk.facts.step import Step, Technique
from verify.walk.walk import Walk

BY_PLACES: Final = frozenset(
    {
        Technique.HIDDEN_SINGLE,
        Technique.LOCKED,
        Technique.HIDDEN_PAIR,
        Technique.HIDDEN_TRIPLE,
        Technique.HIDDEN_QUAD,
        Technique.TWO_LINE_FISH,
        Technique.THREE_LINE_FISH,
        Technique.FOUR_LINE_FISH,
        Technique.COLOUR_CHAIN,
    }
)
"""What looks at the places of its digits alone, whatever else stands in the cells."""

EVERYTHING: Final[Mask] = -1


def needed_steps(walk: Walk) -> tuple[Step, ...]:
    """The placements, and the steps on whose strikes a later one of these steps rests.

    All steps of a walk that does not finish: nobody knows which of them lead on.
    """
    if not walk.finished:
        return tuple(walk.every_step)
    needed: dict[Cell, Mask] = {}
    kept: list[Step] = []
    for step, struck in reversed(tuple(_first_struck(walk))):
        if step.places or any(needed.get(cell, 0) & mask for cell, mask in struck):
            kept.append(step)
            counts = _digits_that_count(step)
            for cell in step.because.cells:
                needed[cell] = needed.get(cell, 0) | counts
    return tuple(reversed(kept))


def _first_struck(walk: Walk) -> Iterator[tuple[Step, tuple[tuple[Cell, Mask], ...]]]:
    """Each step with what it is the first to strike: steps of a round do not wait for others."""
    gone: dict[Cell, Mask] = {}
    for step in walk.every_step:
        yield step, tuple((cell, mask & ~gone.get(cell, 0)) for cell, mask in step.removes)
        for cell, mask in step.removes:
            gone[cell] = gone.get(cell, 0) | mask


def _digits_that_count(step: Step) -> Mask:
    """The digits that the cells of its reasons must have lost, or not, for a step to stand."""
    if step.technique is Technique.LAST_CELL:
        return 0
    return step.because.digits if step.technique in BY_PLACES else EVERYTHING
