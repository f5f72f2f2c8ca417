"""Strikes that follow from the same thought, in one breath: a shape is read off at once."""

from collections.abc import Sequence
from dataclasses import replace

from verify.puzzle import Puzzle
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step, Technique
from verify.walk.told.event import SUPPOSED, Based, Missing, add
from verify.walk.told.needed import Kept
from verify.walk.told.premises import WHOLE


def together(kept: Sequence[Kept], puzzle: Puzzle) -> list[Kept]:
    """The same path, but strikes of one thought in one step, and of a mark with those just before.

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
    """A step of the same thought, or of the same mark just before, that a strike can join."""
    if later.step.places or later.step.technique in SUPPOSED:
        return None
    for at, each in enumerate(steps):
        if _is_same_thought(each, later):
            return at
    if later.step.technique is not Technique.MARK:
        return None
    (link,) = later.step.because.links
    for at in range(len(steps) - 1, -1, -1):
        step = steps[at].step
        if step.technique is Technique.MARK and step.because.links == (link,):
            return at if _stood(steps, at, notes, later) else None
        if not step.places or step.places[0][0] not in link.constraint.cells:
            return None
    return None


def _is_same_thought(one: Kept, later: Kept) -> bool:
    """Whether something strikes again by what it struck by before, for no more reasons."""
    known = dict(one.based.needs)
    return _thought(one.step) == _thought(later.step) and all(
        not mask & ~known.get(cell, 0) for cell, mask in later.based.needs
    )


def _thought(step: Step) -> tuple[object, ...]:
    """What steps of one thought share: the technique, its digits, its marks, its houses."""
    because = step.because
    cells = because.cells if step.technique in WHOLE else ()
    return step.technique, because.digits, because.links, because.houses[:1], step.summed, cells


def _stood(steps: Sequence[Kept], at: int, notes: Notes, later: Kept) -> bool:
    """Whether a strike could have been told with an earlier one, on the sheet as it was then."""
    before = Notes(notes.puzzle)
    before.apply([each.step for each in steps[:at]])
    return later.based.stands_on(before.pencil)


def _joined(one: Kept, other: Kept) -> Kept:
    """Two strikes as one."""
    needs, removes = Missing(), Missing()
    for cell, mask in (*one.based.needs, *other.based.needs):
        add(needs, cell, mask)
    for cell, mask in (*one.step.removes, *other.step.removes):
        add(removes, cell, mask)
    step = _with(one.step, other.step, needs, removes)
    return Kept(Based(step, tuple(sorted(needs.items()))), (*one.uses, *other.uses))


def _with(step: Step, other: Step, needs: Missing, removes: Missing) -> Step:
    """The step with what both rest on; a mark speaks of the cells that count."""
    houses = tuple(dict.fromkeys((*step.because.houses, *other.because.houses)))
    because = replace(step.because, houses=houses)
    if step.technique in (Technique.MARK, Technique.ARRANGEMENTS):
        because = replace(because, cells=tuple(sorted({*needs, *removes})))
    return replace(step, because=because, removes=tuple(sorted(removes.items())))
