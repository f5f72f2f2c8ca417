"""The candidates that are refuted when they are supposed and followed as far as it goes.

Most are not, and stay so while little changes on the sheet. So what is found sound is kept and
taken along; and all that follows from a sound candidate is sound, for what would follow from it
follows there, too. What is refuted once is refuted for ever, if perhaps sooner later on.
"""

from verify.walk.notes import Candidate, Notes
from verify.walk.supposing import Supposition


def refuted(notes: Notes, soon: int, most: int) -> list[Supposition]:
    """What is refuted within some rounds, or else in the fewest that refute any, up to `most`."""
    supposed = [Supposition(notes, *candidate) for candidate in doomed(notes)]
    found: list[Supposition] = []
    for rounds in range(1, most + 1):
        for each in supposed:
            each.advance()
        found += [each for each in supposed if each.conflicts]
        if found and rounds >= soon:
            break
        supposed = [each for each in supposed if each.moving]
    return found


def doomed(notes: Notes) -> list[Candidate]:
    """Every open candidate that is refuted sooner or later."""
    notes.sound[:] = [each for each in notes.sound if _is_sound(each)]
    sound = {candidate for each in notes.sound for candidate in each.placements}
    for candidate in notes.candidates():
        if candidate not in sound and candidate not in notes.doomed:
            supposed = Supposition(notes, *candidate)
            if _is_sound(supposed):
                notes.sound.append(supposed)
                sound.update(supposed.placements)
            else:
                notes.doomed.add(candidate)
    return [candidate for candidate in notes.candidates() if candidate in notes.doomed]


def _is_sound(supposed: Supposition) -> bool:
    """Whether a candidate is open still, and no contradiction comes of it."""
    supposed.catch_up()
    supposed.follow()
    return supposed.is_open and not supposed.conflicts
