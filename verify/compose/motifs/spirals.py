"""Spirals: hooks that curl in, one in each quarter of the board or two large ones."""

from random import Random

from verify.compose.motifs.strokes import Stroke, four_ways, pinwheel, twice


def spirals(size: int, most: int, chance: Random) -> list[Stroke]:
    """Curls of at most so many cells, all alike; none where these don't go around two corners."""
    half, margin = size // 2, chance.choice((0, 0, 1))
    copies = chance.choice((pinwheel, four_ways, twice))
    widest = size - 2 - margin if copies is twice else half - margin
    width, height = chance.randint(3, max(3, widest)), chance.randint(3, max(3, half - margin))
    if most < width + height:
        return []
    stroke = curl(margin, width, height)[:most]
    return copies([stroke[::-1] if chance.random() < 0.5 else stroke], size)


def curl(margin: int, width: int, height: int) -> Stroke:
    """From the upper left corner around three sides, and up until the beginning is near."""
    top, left = margin, margin
    right, bottom = left + width - 1, top + height - 1
    return (
        *((top, column) for column in range(left, right + 1)),
        *((row, right) for row in range(top + 1, bottom + 1)),
        *((bottom, column) for column in range(right - 1, left - 1, -1)),
        *((row, left) for row in range(bottom - 1, top + 1, -1)),
    )
