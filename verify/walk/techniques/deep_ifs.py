"""Deep "if" steps: suppose a candidate, follow it to the end, and go on there with more "ifs"."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Final

from verify.pencil import bit
from verify.walk.facts.arrays import Masks
from verify.walk.facts.cells import Candidate
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step, Technique, unexplained
from verify.walk.suppose.supposing import Supposition
from verify.walk.suppose.trial import Trial
from verify.walk.techniques.ifs import LONG, explained
from verify.walk.ways.strikers import strikers_of

MOST_CANDIDATES: Final = 1_000
"""Candidates on a sheet past which nobody would look for one to follow so far."""

AT_ONCE: Final = 10
"""Candidates that are followed at one sitting: one refuted candidate alone seldom opens much."""

MOST_TRIED: Final = 30
"""Candidates that are followed so far, and in vain, before a solver gives up."""


@dataclass(frozen=True, slots=True)
class Followed:
    """A candidate, the sheet where it is followed to the end, and what was ruled out on the way.

    The sheet has what is left of each cell.
    """

    candidate: Candidate
    sheet: Masks
    ruled_out: tuple[tuple[Candidate, ...], ...] = ()


class _Known:
    """Where candidates led on the sheet as it was before, with all that "ifs" ruled out there.

    A sheet only loses, so all of that is gone there still. `sheets` has what was left of each
    cell, and how many strikers there were.
    """

    def __init__(self, notes: Notes) -> None:
        self.sheets: dict[Candidate, tuple[Masks, int]] = {}
        self._strikers = strikers_of(notes)

    def keep(self, candidate: Candidate, sheet: Masks) -> None:
        """Keeps where a candidate led that was not refuted."""
        self.sheets[candidate] = sheet, self._strikers.count

    def leads_nowhere_else(self, candidate: Candidate, sheet: Masks) -> bool:
        """Whether nothing has been lost since, and nothing new strikes."""
        before, strikers = self.sheets[candidate]
        return bool((sheet == before).all()) and strikers == self._strikers.count


def deep_ifs(notes: Notes) -> Iterator[Step]:
    """The candidates that lead furthest, as far as they are refuted then."""
    candidates = tuple(notes.candidates())
    if len(candidates) > MOST_CANDIDATES:
        return
    trial = Trial.of(notes, candidates, watchful=True)
    while trial.moving:
        refuted = trial.advance()
        if refuted:
            sheets = trial.sheets
            yield from (_step(notes, Followed(candidates[at], sheets[at])) for at in refuted)
            return
    worlds = [Followed(each, sheet) for each, sheet in zip(candidates, trial.sheets, strict=True)]
    yield from (_step(notes, each) for each in _refuted(notes, worlds))


def _refuted(notes: Notes, worlds: Sequence[Followed]) -> list[Followed]:
    """Those of the first that are refuted: what leaves the fewest candidates comes first."""
    tried, found = 0, []
    for _, group in groupby(sorted(worlds, key=_left), _left):
        together = list(group)
        found += [end for each in together if (end := _to_its_end(notes, each)) is not None]
        tried += len(together)
        if tried >= (AT_ONCE if found else MOST_TRIED):
            break
    return found


def _left(followed: Followed) -> int:
    """Candidates left on a sheet."""
    import numpy

    return int(numpy.bitwise_count(followed.sheet).sum())


def _to_its_end(notes: Notes, followed: Followed) -> Followed | None:
    """Goes on from where a candidate by itself leads no further.

    Rules out what more "ifs" refute, again and again, up to a contradiction; else None. What was
    ruled out before is gone at once, unless reasons are to be told.
    """
    known, candidate, sheet = notes.once(_Known), followed.candidate, followed.sheet
    if candidate in known.sheets:
        shortened = _going_on(notes, sheet, sheet & known.sheets[candidate][0])
        if shortened is not None and known.leads_nowhere_else(candidate, shortened):
            return None
        if notes.reasons:
            shortened = sheet
        if shortened is None:
            return followed
        sheet = shortened
    ruled_out: tuple[tuple[Candidate, ...], ...] = ()
    while gone := _ruled_out(notes, sheet):
        ruled_out = (*ruled_out, gone)
        after = _going_on(notes, sheet, _without(sheet, gone))
        if after is None:
            return Followed(candidate, sheet, ruled_out)
        sheet = after
    known.keep(candidate, sheet)
    return None


def _without(sheet: Masks, candidates: Sequence[Candidate]) -> Masks:
    """A sheet that has lost some candidates."""
    import numpy

    sheet = sheet.copy()
    for cell, digit in candidates:
        sheet[cell] &= ~numpy.uint32(bit(digit))
    return sheet


def _going_on(notes: Notes, before: Masks, sheet: Masks) -> "Masks | None":
    """Where a sheet leads that has lost something since it was at its end; None if it fails."""
    trial = Trial.going_on(notes, sheet, sheet != before)
    while trial.moving:
        if trial.advance():
            return None
    left: Masks = trial.sheets[0]
    return left


def _ruled_out(notes: Notes, sheet: Masks) -> tuple[Candidate, ...]:
    """What "ifs" refute on a sheet, which has what is left of each cell."""
    trial, candidates = Trial.within(notes, sheet)
    refuted: list[int] = []
    for _ in range(LONG):
        if trial.moving:
            refuted += trial.advance()
    return tuple(candidates[at] for at in sorted(refuted))


def _step(notes: Notes, followed: Followed) -> Step:
    """The step that strikes a candidate which was refuted so, with its reasons."""
    cell, digit = followed.candidate
    if not notes.reasons:
        return unexplained(Technique.DEEP_IF, cell, bit(digit), LONG)
    supposed = Supposition(notes, cell, digit, watchful=True)
    supposed.follow()
    for gone in followed.ruled_out:
        supposed.rule_out(gone)
        supposed.follow()
    return replace(explained(Technique.DEEP_IF, supposed), depth=LONG)
