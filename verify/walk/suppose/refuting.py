"""The candidates that are refuted when they are supposed, and after how many rounds."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from verify.walk.facts.cells import Candidate
from verify.walk.facts.notes import Notes
from verify.walk.suppose.supposing import Supposition
from verify.walk.suppose.trial import Trial


@dataclass(frozen=True, slots=True)
class Refuted:
    """Candidates that are refuted, each after how many rounds.

    `watchful` where locked candidates count, too; `rounds` are those that were followed.
    """

    candidates: tuple[Candidate, ...]
    depths: tuple[int, ...]
    rounds: int
    watchful: bool

    def only(self, some: Iterable[Candidate]) -> "Refuted":
        """Some of them."""
        depth_of = dict(zip(self.candidates, self.depths, strict=True))
        chosen = tuple(some)
        return replace(self, candidates=chosen, depths=tuple(depth_of[each] for each in chosen))

    def followed(self, notes: Notes) -> list[Supposition]:
        """Each of them followed to its contradiction."""
        return [self._followed(notes, each) for each in self.candidates]

    def _followed(self, notes: Notes, candidate: Candidate) -> Supposition:
        """By marks alone, where these are enough: such a way rests on less."""
        plain = Supposition(notes, *candidate, self.watchful, with_lists=False)
        plain.follow()
        if plain.conflicts:
            return plain
        supposed = Supposition(notes, *candidate, self.watchful)
        supposed.follow()
        return supposed


def refuted(notes: Notes, soon: int, most: int) -> Refuted | None:
    """What is refuted within some rounds, or else in the fewest that refute any, up to `most`.

    In reading order. Only where nothing is, locked candidates count among the consequences, too.
    """
    candidates = tuple(notes.candidates())
    for watchful in (False, True):
        trial = Trial.of(notes, candidates, watchful=watchful)
        found: dict[int, int] = {}
        rounds = 0
        while trial.moving and rounds < most and (not found or rounds < soon):
            rounds += 1
            found |= dict.fromkeys(trial.advance(), rounds)
        if found:
            order = sorted(found)
            refuted = tuple(candidates[at] for at in order)
            return Refuted(refuted, tuple(found[at] for at in order), rounds, watchful)
    return None
