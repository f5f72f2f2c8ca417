"""Fans: rays from corners, from the middles of two edges, or from the middle of the board."""

from collections.abc import Callable, Sequence
from random import Random
from typing import Final, TypeAlias

from verify.compose.motifs.strokes import Spot, Stroke, four_ways, line, turned, twice

Copies: TypeAlias = Callable[[Sequence[Stroke], int], list[Stroke]]

CORNER: Final = ((0, 1), (1, 1), (1, 0))
"""Ways on from the upper left corner."""

EDGE: Final = ((0, -1), (1, -1), (1, 0), (1, 1), (0, 1))
"""Ways on from the middle of the upper edge."""

STAR: Final = ((0, 1), (1, 1), (1, 0), (1, -1))
"""Ways on from the middle of the board; half a turn makes the other four."""

SHORTEST: Final = 3
"""Cells that a ray has at least."""


def fans(size: int, most: int, chance: Random) -> list[Stroke]:
    """Rays of at most so many cells, that leave the spot free from which they come."""
    hubs = [each for each in _hubs(size) if min(most, each[-1]) >= SHORTEST]
    if not hubs:
        return []
    hub, ways, copies, room = chance.choice(hubs)
    length = chance.randint(SHORTEST, min(most, room))
    rays = [_ray(hub, way, length, size) for way in ways]
    if chance.random() < 0.3:
        rays = [ray[::-1] for ray in rays]
    strokes = copies(rays, size)
    return [turned(stroke, size) for stroke in strokes] if chance.random() < 0.5 else strokes


def _hubs(size: int) -> list[tuple[Spot, tuple[Spot, ...], Copies, int]]:
    """Where rays come from, and where to; how they are copied, and how long they may be."""
    middle = size // 2
    corners: list[tuple[Spot, tuple[Spot, ...], Copies, int]] = [
        ((0, 0), CORNER, twice, size - 2),
        ((0, 0), CORNER, four_ways, (size - 3) // 2),
    ]
    if size % 2 == 0:
        return corners
    return [
        *corners,
        ((0, middle), EDGE, twice, middle),
        ((middle, middle), STAR, twice, middle),
    ]


def _ray(hub: Spot, way: Spot, length: int, size: int) -> Stroke:
    """A ray; one that slants from a corner or an edge ends before the middle of the board."""
    slanted = all(way) and hub[0] == 0
    length = min(length, size // 2 - 1) if slanted else length
    return line((hub[0] + way[0], hub[1] + way[1]), way, length)
