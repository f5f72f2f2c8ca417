"""A walk run again: what stands on the sheet before some steps, and what they do to it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from verify.board import Cell
from verify.pencil import Mask, highest
from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Consequence, DeadEnd, Step


@dataclass(frozen=True, slots=True)
class Scene:
    """The sheet before steps that are told together, and what these do.

    `pencil` and `written` have a value for each cell: its candidates, and its digit or 0 where it
    is still open. `reasons` are the cells whose marks count; `about` the candidates in them that
    the steps speak of. `chain` and `dead_end` are those of an "if"; the first of the chain is
    what is supposed.
    """

    pencil: tuple[Mask, ...]
    written: tuple[int, ...]
    placed: tuple[tuple[Cell, int], ...] = ()
    struck: tuple[tuple[Cell, Mask], ...] = ()
    reasons: tuple[Cell, ...] = ()
    about: tuple[tuple[Cell, Mask], ...] = ()
    chain: tuple[Consequence, ...] = ()
    dead_end: DeadEnd | None = None


def replay(puzzle: Puzzle, told: Iterable[Sequence[Step]]) -> Iterator[Scene]:
    """A scene for each group of steps, one after the other from the givens on."""
    notes = Notes(puzzle)
    for steps in told:
        yield _scene(notes, steps)
        notes.apply(steps)


def _scene(notes: Notes, steps: Sequence[Step]) -> Scene:
    first = steps[0]
    shown = () if len(steps) > 1 and first.places else steps
    return Scene(
        tuple(notes.pencil),
        tuple(
            highest(mask) if notes.placed >> cell & 1 else 0
            for cell, mask in enumerate(notes.pencil)
        ),
        tuple(place for step in steps for place in step.places),
        notes.fresh(_joined(each for step in steps for each in step.removes)),
        tuple(sorted({cell for step in shown for cell in _reasons(step)})),
        notes.fresh(
            _joined((cell, step.because.digits) for step in shown for cell in step.because.cells)
        ),
        first.chain if len(steps) == 1 else (),
        first.dead_end if len(steps) == 1 else None,
    )


def _reasons(step: Step) -> Iterator[Cell]:
    """The cells whose marks count, and those that an "if" or a way passes through."""
    yield from step.because.cells
    yield from (each.cell for chain in (step.chain, *step.ways) for each in chain)


def _joined(masks: Iterable[tuple[Cell, Mask]]) -> tuple[tuple[Cell, Mask], ...]:
    """One mask for each cell, in reading order."""
    found: dict[Cell, Mask] = {}
    for cell, mask in masks:
        found[cell] = found.get(cell, 0) | mask
    return tuple(sorted(found.items()))
