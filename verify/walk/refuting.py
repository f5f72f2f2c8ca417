"""The candidates that are refuted when they are supposed and followed as far as it goes.

Most are not, and stay so while little changes on the sheet. So what is found sound is kept and
taken along; and all that follows from a sound candidate is sound, for what would follow from it
follows there, too. What is refuted once is refuted for ever, if perhaps sooner later on.
"""

from collections.abc import Collection, Sequence

from verify.walk.notes import Candidate, Notes
from verify.walk.supposing import Start, Supposition


def refuted(notes: Notes, soon: int, most: int) -> list[Supposition]:
    """What is refuted within some rounds, or else in the fewest that refute any, up to `most`."""
    start = Start(notes)
    supposed = [Supposition(start, *candidate) for candidate in doomed(start)]
    found: list[Supposition] = []
    for rounds in range(1, most + 1):
        for each in supposed:
            each.advance()
        found += [each for each in supposed if each.conflicts]
        if found and rounds >= soon:
            break
        supposed = [each for each in supposed if each.moving]
    return found


def doomed(start: Start) -> list[Candidate]:
    """Every open candidate that is refuted sooner or later."""
    notes = start.notes
    candidates = dict.fromkeys(notes.candidates())
    sound = _still_sound(notes.sound, candidates, start)
    certain = {candidate for each in sound for candidate in each.placements}
    for candidate in candidates:
        if candidate not in certain and candidate not in notes.doomed:
            supposed = Supposition(start, *candidate)
            supposed.follow()
            if supposed.conflicts:
                notes.doomed.add(candidate)
            else:
                follows = set(supposed.placements)
                sound = [each for each in sound if (each.cell, each.digit) not in follows]
                sound.append(supposed)
                certain |= follows
    notes.sound = sound
    return [candidate for candidate in candidates if candidate in notes.doomed]


def _still_sound(
    sound: Sequence[Supposition], candidates: Collection[Candidate], start: Start
) -> list[Supposition]:
    """The suppositions of open candidates that lead to no contradiction now either."""
    kept = [each for each in sound if (each.cell, each.digit) in candidates]
    for each in kept:
        each.catch_up(start)
        each.follow()
    return [each for each in kept if not each.conflicts]
