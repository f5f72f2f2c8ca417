"""Strikes of one mark that follow from the same, in one breath: a shape is read off at once."""

from collections.abc import Sequence
from dataclasses import replace

from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step, Technique
from verify.walk.told.event import Based, Missing, add
from verify.walk.told.needed import Kept


def together(kept: Sequence[Kept], puzzle: Puzzle) -> list[Kept]:
    """The same path, but strikes of one mark in one step with those just before them.

    So it is where nothing but digits of that mark is placed between them, and the later strike
    does not rest on these; and wherever it strikes for nothing else than it did before. `uses`
    count in the new list, and only steps before: what else a strike used, it did not wait for.
    """
    notes = Notes(puzzle)
    merged: dict[int, int] = {}
    steps: list[Kept] = []
    numbers: list[int] = []
    for number, each in enumerate(kept):
        host = _host(steps, notes, each)
        if host is None:
            merged[number] = len(steps)
            steps.append(each)
            numbers.append(number)
        else:
            merged[number] = host
            steps[host] = _joined(steps[host], each)
        notes.apply([each.step])
    return [
        Kept(each.based, tuple(sorted({merged[use] for use in each.uses if merged[use] < at})))
        for at, each in enumerate(steps)
    ]


def _host(steps: Sequence[Kept], notes: Notes, later: Kept) -> int | None:
    """The step just before, but for digits of its mark, that a strike can join."""
    if later.step.technique is not Technique.MARK:
        return None
    (link,) = later.step.because.links
    for at, each in enumerate(steps):
        if _is_same_push(each, later):
            return at
    for at in range(len(steps) - 1, -1, -1):
        step = steps[at].step
        if step.technique is Technique.MARK and step.because.links == (link,):
            return at if _stood(steps, at, notes, later) else None
        if not step.places or step.places[0][0] not in link.constraint.cells:
            return None
    return None


def _is_same_push(one: Kept, later: Kept) -> bool:
    """Whether a mark strikes again for what it struck for before."""
    known = dict(one.based.needs)
    return (
        one.step.technique is Technique.MARK
        and one.step.because.links == later.step.because.links
        and all(not mask & ~known.get(cell, 0) for cell, mask in later.based.needs)
    )


def _stood(steps: Sequence[Kept], at: int, notes: Notes, later: Kept) -> bool:
    """Whether a strike could have been told with an earlier one, on the sheet as it was then."""
    before = Notes(notes.puzzle)
    before.apply([each.step for each in steps[:at]])
    return later.based.stands_on(before.pencil)


def _joined(one: Kept, other: Kept) -> Kept:
    """Two strikes of a mark as one."""
    needs, removes = Missing(), Missing()
    for cell, mask in (*one.based.needs, *other.based.needs):
        add(needs, cell, mask)
    for cell, mask in (*one.step.removes, *other.step.removes):
        add(removes, cell, mask)
    step = _with(one.step, needs, removes)
    return Kept(Based(step, tuple(sorted(needs.items()))), (*one.uses, *other.uses))


def _with(step: Step, needs: Missing, removes: Missing) -> Step:
    cells = tuple(sorted({*needs, *removes}))
    because = replace(step.because, cells=cells)
    return replace(step, because=because, removes=tuple(sorted(removes.items())))
