"""The candidates that are refuted when they are supposed, and after how many rounds."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from verify.walk.facts.cells import Candidate
from verify.walk.facts.notes import Notes
from verify.walk.suppose.supposing import Supposition
from verify.walk.suppose.trial import Trial


@dataclass(frozen=True, slots=True)
class Refuted:
    """Candidates that so many rounds refute; `watchful` where locked candidates count, too."""

    candidates: tuple[Candidate, ...]
    rounds: int
    watchful: bool

    def only(self, some: Iterable[Candidate]) -> "Refuted":
        """Some of them."""
        return replace(self, candidates=tuple(some))

    def followed(self, notes: Notes) -> list[Supposition]:
        """Each of them followed to its contradiction."""
        supposed = [Supposition(notes, *each, self.watchful) for each in self.candidates]
        for each in supposed:
            each.follow()
        return supposed


def refuted(notes: Notes, soon: int, most: int) -> Refuted | None:
    """What is refuted within some rounds, or else in the fewest that refute any, up to `most`.

    In reading order. Only where nothing is, locked candidates count among the consequences, too.
    """
    candidates = tuple(notes.candidates())
    for watchful in (False, True):
        trial = Trial.of(notes, candidates, watchful=watchful)
        found: list[int] = []
        rounds = 0
        while trial.moving and rounds < most and (not found or rounds < soon):
            found += trial.advance()
            rounds += 1
        if found:
            return Refuted(tuple(candidates[at] for at in sorted(found)), rounds, watchful)
    return None
