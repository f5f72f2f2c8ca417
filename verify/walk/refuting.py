"""The candidates that are refuted when they are supposed, and after how many rounds."""

from verify.walk.cells import Candidate
from verify.walk.notes import Notes
from verify.walk.supposing import Supposition
from verify.walk.trial import Trial


def refuted(notes: Notes, soon: int, most: int) -> list[Supposition]:
    """What is refuted within some rounds, or else in the fewest that refute any, up to `most`.

    In reading order; each is followed to its contradiction. Only where nothing is, locked
    candidates count among the consequences, too.
    """
    for watchful in (False, True):
        found = _refuted(notes, soon, most, watchful)
        if found:
            supposed = [Supposition(notes, *each, watchful) for each in sorted(found)]
            for each in supposed:
                each.follow()
            return supposed
    return []


def _refuted(notes: Notes, soon: int, most: int, watchful: bool) -> list[Candidate]:
    found: list[Candidate] = []
    trial = Trial(notes, watchful=watchful)
    rounds = 0
    while trial.moving and rounds < most and (not found or rounds < soon):
        found += trial.advance()
        rounds += 1
    return found
