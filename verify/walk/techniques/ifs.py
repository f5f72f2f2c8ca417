"""Short and longer "if" steps: suppose a candidate, and meet a contradiction soon."""

from collections.abc import Iterator
from typing import Final

from verify.pencil import bit
from verify.walk.grounds import Grounds
from verify.walk.notes import Notes
from verify.walk.refuting import refuted
from verify.walk.step import DeadEnd, Step, Technique
from verify.walk.supposing import Conflict, Supposition

SHORT: Final = 2
"""Rounds of consequences in a short "if"."""

LONG: Final = 8
"""Rounds past which nobody would follow an "if" in pencil."""


def ifs(notes: Notes) -> Iterator[Step]:
    """The candidates that are refuted soon, or else in the fewest rounds that refute any."""
    for each in refuted(notes, SHORT, LONG):
        technique = Technique.SHORT_IF if each.rounds <= SHORT else Technique.LONG_IF
        yield _step(technique, each)


def _step(technique: Technique, supposed: Supposition) -> Step:
    """The contradiction to which the fewest digits lead."""
    told = [(conflict, _traced(supposed, conflict)) for conflict in supposed.conflicts]
    conflict, grounds = min(told, key=lambda each: (len(each[1].chain), len(each[1].cells)))
    return Step(
        technique,
        grounds.because(bit(supposed.digit)),
        removes=((supposed.cell, bit(supposed.digit)),),
        chain=grounds.chain,
        dead_end=DeadEnd(conflict.cell, conflict.digit, conflict.house),
    )


def _traced(supposed: Supposition, conflict: Conflict) -> Grounds:
    grounds = Grounds(supposed)
    grounds.of_conflict(conflict)
    return grounds
