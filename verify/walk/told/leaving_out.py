"""How much stays open where one supposition of a path is left out: whether it is worth a trial.

All of them are left out at once, each on a sheet of its own, in arrays. On these sheets the steps
of the path are taken as they stand, and singles, marks and locked candidates lead on. Other steps
are not sought anew, so a path may end all the same where this leaves something open.
"""

from collections.abc import Iterable, Sequence

from verify.walk.facts.arrays import Masks
from verify.walk.facts.cells import cells_of
from verify.walk.facts.notes import Notes
from verify.walk.suppose.trial import Trial
from verify.walk.told.event import Based
from verify.walk.told.needed import Kept


def left_without(notes: Notes, path: Sequence[Kept], some: Sequence[Based]) -> list[int]:
    """For each of some steps how many candidates are left where the path goes without it.

    The notes are those of the givens. Raises BudgetSpent.
    """
    import numpy

    strikes = [each.based for each in path if not each.step.places]
    waiting = [[each for each in strikes if each != left_out] for left_out in some]
    sheets: Masks = numpy.tile(numpy.array(notes.pencil, numpy.uint32), (len(some), 1))
    done = numpy.zeros_like(sheets, bool)
    done[:, list(cells_of(notes.placed))] = True
    while True:
        before = sheets.copy()
        for at, each in enumerate(waiting):
            waiting[at], sheets[at] = _taken(each, sheets[at].tolist())
        stirred = before != sheets
        trial = Trial(
            notes, sheets, done & ~stirred, numpy.zeros_like(sheets), stirred, watchful=True
        )
        while trial.moving:
            trial.advance()
        sheets = trial.sheets
        if not (before != sheets).any():
            return [int(left) for left in numpy.bitwise_count(sheets).sum(axis=1)]
        done = sheets & (sheets - 1) == 0


def _taken(steps: Iterable[Based], pencil: list[int]) -> tuple[list[Based], list[int]]:
    """The steps that don't stand yet, and the sheet after the others."""
    waiting = []
    for each in steps:
        if each.stands_on(pencil):
            for cell, mask in each.step.removes:
                pencil[cell] &= ~mask
        else:
            waiting.append(each)
    return waiting, pencil
