"""Combs: teeth side by side from two edges, upright or slanted, of lengths that follow a line."""

from collections.abc import Sequence
from random import Random

from verify.compose.motifs.strokes import Stroke, line, turned, twice


def combs(size: int, most: int, chance: Random) -> list[Stroke]:
    """Teeth of at most so many cells."""
    margin, slant = chance.choice((0, 0, 1)), chance.choice((0, 0, 1))
    longest = min(most, size // 2 - margin)
    columns = range(chance.choice((0, 1)), size, 2)
    lengths = _lengths(len(columns), longest, chance)
    teeth = [
        line((margin, column), (1, slant), length)
        for column, length in zip(columns, lengths, strict=True)
        if column + slant * (length - 1) < size
    ]
    if chance.random() < 0.5:
        teeth = [tooth[::-1] for tooth in teeth]
    strokes = twice(teeth, size)
    return [turned(stroke, size) for stroke in strokes] if chance.random() < 0.5 else strokes


def _lengths(count: int, longest: int, chance: Random) -> Sequence[int]:
    """All alike, long and short in turn, a hollow or a hill."""
    short = max(2, longest - 1)
    middle = (count - 1) / 2
    return chance.choice(
        (
            [longest] * count,
            [(longest, short)[n % 2] for n in range(count)],
            [longest if abs(n - middle) > count / 4 else short for n in range(count)],
            [short if abs(n - middle) > count / 4 else longest for n in range(count)],
        )
    )
