"""Gives back the givens that a walk needs: where it stops, or where it is too hard."""

from collections.abc import Callable, Iterator, Sequence
from random import Random
from typing import Final

from verify.board import Cell
from verify.compose.measure import Candidate
from verify.compose.orbits import Orbit
from verify.walk.facts.step import cells_touched
from verify.walk.report.grade import EFFORT

CLOSE_LOOK: Final = 8
"""Orbits of which each is tried before one is given back."""

MOST_GIVEN_BACK: Final = 24
"""Orbits that are given back at most."""


class Easing:
    """Eases puzzles of one answer, measured by `measure`; `last` is where it came to last."""

    def __init__(
        self, loose: Sequence[Orbit], measure: Callable[[frozenset[Cell]], Candidate]
    ) -> None:
        self._loose, self.measure = loose, measure
        self.last: Candidate | None = None

    def eased(self, kept: frozenset[Cell], chance: Random) -> Iterator[Candidate]:
        """Each puzzle on the way from these givens to one that is no longer too hard."""
        self.last = self.measure(kept)
        yield self.last
        for _ in range(MOST_GIVEN_BACK):
            if not self.last.too_hard:
                return
            tried: list[tuple[Candidate, frozenset[Cell]]] = []
            for orbit in self._tight(self.last, kept, chance):
                more = kept.union(orbit)
                tried.append((self.measure(more), more))
                yield tried[-1][0]
                if tried[-1][0].shortfall.in_band:
                    break
            if not tried:
                return
            self.last, kept = min(tried, key=_onward)

    def _tight(self, candidate: Candidate, kept: frozenset[Cell], chance: Random) -> list[Orbit]:
        """Orbits of the tightest place, in an order by chance, then others."""
        tight = frozenset(_tight_cells(candidate))
        free = [orbit for orbit in self._loose if kept.isdisjoint(orbit)]
        chance.shuffle(free)
        free.sort(key=lambda orbit: tight.isdisjoint(orbit))
        return free[:CLOSE_LOOK]


def _onward(tried: tuple[Candidate, frozenset[Cell]]) -> tuple[object, ...]:
    """Goes on with what is as wanted, else with what is still too hard but nearer to its end."""
    candidate, _ = tried
    left = sum(mask.bit_count() > 1 for mask in candidate.walk.pencil)
    return not candidate.shortfall.in_band, not candidate.too_hard, candidate.shortfall, left


def _tight_cells(candidate: Candidate) -> list[Cell]:
    """The cells that are open where the walk stops; those of its hardest rounds if it does not."""
    path = candidate.walk
    if not path.finished:
        return [cell for cell, mask in enumerate(path.pencil) if mask.bit_count() > 1]
    hardest = max((EFFORT[each.technique] for each in path.rounds), default=0.0)
    return [
        cell
        for each in path.rounds
        if EFFORT[each.technique] == hardest
        for cell in cells_touched(each.steps)
    ]
