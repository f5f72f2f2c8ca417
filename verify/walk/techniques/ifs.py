"""Short and longer "if" steps: suppose a candidate, and meet a contradiction soon."""

from collections.abc import Iterator
from typing import Final

from verify.pencil import bit, digits_of
from verify.walk.notes import Notes, cells_of
from verify.walk.step import Step, Technique
from verify.walk.supposing import Refuted, Supposition

SHORT: Final = 2
"""Rounds of consequences in a short "if"."""

LONG: Final = 8
"""Rounds past which nobody would follow an "if" in pencil."""


def ifs(notes: Notes) -> Iterator[Step]:
    """The candidates that are refuted soon, or else in the fewest rounds that refute any."""
    trial = notes.trial
    supposed = [
        Supposition(notes, cell, digit)
        for cell in cells_of(notes.open)
        for digit in digits_of(notes.pencil[cell])
        if trial.fails(cell, digit)
    ]
    steps: list[Step] = []
    for rounds in range(1, LONG + 1):
        technique = Technique.SHORT_IF if rounds <= SHORT else Technique.LONG_IF
        refuted = [(each, each.advance()) for each in supposed]
        steps += [_step(technique, each, why) for each, why in refuted if why is not None]
        supposed = [each for each, why in refuted if why is None and each.fresh]
        if steps and rounds >= SHORT:
            break
    yield from steps


def _step(technique: Technique, supposed: Supposition, refuted: Refuted) -> Step:
    removes = ((supposed.cell, bit(supposed.digit)),)
    return Step(
        technique,
        refuted.because,
        removes=removes,
        chain=refuted.chain,
        dead_end=refuted.dead_end,
    )
