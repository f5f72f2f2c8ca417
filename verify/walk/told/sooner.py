"""Digits that one sees at once come before strikes which they make needless."""

from collections.abc import Iterable, Iterator, Sequence

from verify.board import Cell
from verify.pencil import Mask, digits_of, is_single
from verify.puzzle import Puzzle
from verify.walk.facts.cells import Candidate
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step
from verify.walk.told.needed import Kept


def placed_sooner(kept: Sequence[Kept], puzzle: Puzzle) -> list[Step]:
    """The steps of a path, digits moved forward: those that can be placed by looking before a
    strike, and take all that it strikes. The strike itself stays.
    """
    notes = Notes(puzzle)
    steps: list[Step] = []
    waiting = {each.step.places[0]: each.step for each in kept if each.step.places}
    for each in kept:
        if each.step.places and each.step.places[0] not in waiting:
            continue
        now = [] if each.step.places else _instead(notes, each.step.removes, waiting)
        for step in (*(waiting[place] for place in now), each.step):
            for place in step.places:
                del waiting[place]
            steps.append(step)
            notes.apply([step])
    return steps


def _instead(
    notes: Notes, removes: Iterable[tuple[Cell, Mask]], waiting: Iterable[Candidate]
) -> list[Candidate]:
    """Some digits that can be placed now and take all of a strike; none where there are none."""
    seen = list(_seen(notes, waiting))
    found: dict[Candidate, None] = {}
    for cell, mask in removes:
        for digit in digits_of(mask):
            by = next((each for each in seen if _takes(notes, each, (cell, digit))), None)
            if by is None:
                return []
            found[by] = None
    return list(found)


def _seen(notes: Notes, waiting: Iterable[Candidate]) -> Iterator[Candidate]:
    """Of some digits those that can be placed by looking."""
    for cell, digit in waiting:
        if is_single(notes.pencil[cell]) or any(
            within >> cell & 1 and notes.where[digit] & within == 1 << cell
            for _, within in notes.full_sets
        ):
            yield cell, digit


def _takes(notes: Notes, placed: Candidate, gone: Candidate) -> bool:
    """Whether a candidate goes when a digit is placed."""
    (cell, digit), (other, lost) = placed, gone
    if cell == other:
        return digit != lost
    return digit == lost and bool(notes.peers[cell] >> other & 1)
