"""Short and longer "if" steps: suppose a candidate, and meet a contradiction soon."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from verify.pencil import bit
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Step, Technique, unexplained
from verify.walk.suppose.grounds import shortest
from verify.walk.suppose.refuting import refuted
from verify.walk.suppose.supposing import Supposition

SHORT: Final = 2
"""Rounds of consequences in a short "if"."""

LONG: Final = 8
"""Rounds past which nobody would follow an "if" in pencil."""


def ifs(notes: Notes) -> Iterator[Step]:
    """The candidates that are refuted soon, or else in the fewest rounds that refute any."""
    found = refuted(notes, SHORT, LONG)
    if found is None:
        return
    technique = Technique.SHORT_IF if found.rounds <= SHORT else Technique.LONG_IF
    if notes.reasons:
        for supposed, depth in zip(found.followed(notes), found.depths, strict=True):
            yield replace(explained(technique, supposed), depth=depth)
    else:
        for (cell, digit), depth in zip(found.candidates, found.depths, strict=True):
            yield unexplained(technique, cell, bit(digit), depth)


def explained(technique: Technique, supposed: Supposition) -> Step:
    """The step that strikes what is supposed, with the shortest way to a contradiction."""
    conflict, grounds = shortest(supposed)
    return Step(
        technique,
        grounds.because(bit(supposed.digit)),
        removes=((supposed.cell, bit(supposed.digit)),),
        chain=grounds.chain,
        dead_end=conflict.dead_end,
        asides=grounds.asides,
        counts=grounds.counts,
        depth=supposed.rounds,
    )
