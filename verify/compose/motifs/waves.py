"""Waves: strokes that go up and down across the board, each in step with those above it."""

from random import Random
from typing import Final

from verify.compose.motifs.strokes import Stroke, turned, twice

PROFILES: Final = {(0, 1): 4, (0, 1, 1, 0): 4, (0, 1, 2, 1): 5, (0, 1, 2, 2, 1, 0): 6}
"""How far down a wave is, column by column, again and again, and the cells that it takes to see."""

IN_STEP: Final = ((0, 1), (0, 1, 2, 1))
"""Profiles of which one wave may begin two rows under another."""


def waves(size: int, most: int, chance: Random) -> list[Stroke]:
    """Waves of at most so many cells: one across the board, or two, in each of some bands."""
    profile = chance.choice(list(PROFILES))
    two = size >= 8 and chance.random() < 0.4
    length = min(most, size // 2 if two else size)
    if length < PROFILES[profile]:
        return []
    lefts = (0, size - length) if two else (chance.choice((0, (size - length) // 2)),)
    apart = 2 if profile in IN_STEP else max(profile) + 2
    tops = range(chance.choice((0, 0, 1)), size // 2 - max(profile), apart)
    bands = [
        tuple((top + profile[n % len(profile)], left + n) for n in range(length))
        for top in tops
        for left in lefts
    ]
    strokes = twice(bands, size)
    return [turned(stroke, size) for stroke in strokes] if chance.random() < 0.4 else strokes
