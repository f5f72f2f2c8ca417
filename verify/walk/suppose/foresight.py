"""Where each candidate leads in the end, kept from one sheet to the next.

A supposition is followed once. When the sheet has lost something since, it goes on from where it
was: what followed still follows, and a sheet that has nothing left of what was lost stays as it is.
How many rounds it takes to refute a candidate can't be told so. But only candidates that are
refuted in the end need be followed round by round, and they are few.
"""

from collections.abc import Sequence

from verify.walk.facts.arrays import Flags, Masks
from verify.walk.facts.cells import Candidate
from verify.walk.facts.notes import Notes
from verify.walk.suppose.trial import Trial
from verify.walk.ways.listed import Listed
from verify.walk.ways.strikers import strikers_of


class Foresight:
    """Candidates of a sheet, each followed to its end; it can be asked about what comes of the sheet.

    It is `watchful` where locked candidates count, too. `before` is that of a sheet from which this
    one came. Raises BudgetSpent after the deadline.
    """

    def __init__(
        self, notes: Notes, *, watchful: bool = False, before: "Foresight | None" = None
    ) -> None:
        self._notes = notes
        self._watchful = watchful
        self._ends: dict[Candidate, Masks] = dict(before._ends) if before else {}
        self._doomed: set[Candidate] = set(before._doomed) if before else set()
        self._lists: set[Listed] = set(before._lists) if before else set()

    def doomed(
        self, sheet: Masks, settled: Flags, candidates: Sequence[Candidate]
    ) -> tuple[Candidate, ...]:
        """Those of all candidates of a sheet that are refuted, after however many rounds.

        The sheet has what is left of each cell, and cells are settled whose digit is placed.
        """
        asked = [each for each in candidates if each not in self._doomed]
        known = [each for each in asked if each in self._ends]
        ends = self._ends_of(known, len(sheet))
        left = ends & sheet
        stirred = (left != ends) | self._cells_of_new_lists(len(sheet))
        goes_on = stirred.any(axis=1)
        moving = [known[at] for at in goes_on.nonzero()[0].tolist()]
        trial = Trial.going_on(
            self._notes, left[goes_on], stirred[goes_on], watchful=self._watchful
        )
        self._follow(trial, moving)
        new = [each for each in asked if each not in self._ends and each not in self._doomed]
        trial = Trial.supposing(self._notes, sheet, settled, new, watchful=self._watchful)
        self._follow(trial, new)
        return tuple(each for each in candidates if each in self._doomed)

    def doomed_on_notes(self) -> tuple[Candidate, ...]:
        """The same for the sheet of the notes as it stands."""
        import numpy

        notes = self._notes
        sheet = numpy.array(notes.pencil, numpy.uint32)
        settled = numpy.array([bool(notes.placed >> cell & 1) for cell in range(len(sheet))], bool)
        return self.doomed(sheet, settled, tuple(notes.candidates()))

    def ends(self, candidates: Sequence[Candidate]) -> Masks:
        """What is left of each cell (columns) where each of some candidates leads in the end."""
        return self._ends_of(candidates, len(self._notes.pencil))

    def _ends_of(self, candidates: Sequence[Candidate], cells: int) -> Masks:
        import numpy

        ends = [self._ends[each] for each in candidates]
        return numpy.array(ends, numpy.uint32).reshape(len(candidates), cells)

    def _follow(self, trial: Trial, candidates: Sequence[Candidate]) -> None:
        """Follows candidates to the end, and keeps where they lead."""
        while trial.moving:
            doomed = {candidates[at] for at in trial.advance()}
            self._doomed |= doomed
        self._ends.update(zip(candidates, trial.sheets, strict=True))
        for each in self._doomed.intersection(candidates):
            del self._ends[each]

    def _cells_of_new_lists(self, cells: int) -> Flags:
        """The cells of lists that strike on the sheet, and did not when it was asked before."""
        import numpy

        strikers = strikers_of(self._notes)
        strikers.refresh()
        new = [each for each in strikers.lists if each not in self._lists]
        self._lists.update(new)
        found = numpy.zeros(cells, bool)
        found[[cell for each in new for cell in each.cells]] = True
        return found


class _Plain(Foresight):
    """The one that is not watchful."""

    def __init__(self, notes: Notes) -> None:
        super().__init__(notes)


class _Watchful(Foresight):
    """The watchful one."""

    def __init__(self, notes: Notes) -> None:
        super().__init__(notes, watchful=True)


def foresight_of(notes: Notes, *, watchful: bool) -> Foresight:
    """The one `Foresight` of a sheet of either kind."""
    return notes.once(_Watchful if watchful else _Plain)
