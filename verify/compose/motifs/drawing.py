"""The motifs by name, and layouts drawn by chance from one of them."""

from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise
from random import Random
from typing import Final, TypeAlias

from verify.compose.motifs.combs import combs
from verify.compose.motifs.fans import fans
from verify.compose.motifs.frames import frames
from verify.compose.motifs.spirals import spirals
from verify.compose.motifs.strokes import Stroke, is_tidy
from verify.compose.motifs.waves import waves

Motif: TypeAlias = Callable[[int, int, Random], list[Stroke]]
"""From the size of the board and the most cells of a stroke to strokes, by chance."""

MOTIFS: Final[Mapping[str, Motif]] = {
    "spirals": spirals,
    "combs": combs,
    "fans": fans,
    "waves": waves,
    "frames": frames,
}

MOST_DRAWN: Final = 400
"""Layouts that are drawn, tidy or not."""


def layouts(
    name: str, size: int, least: int, most: int, seed: str, *, slants: bool = True
) -> Iterator[tuple[Stroke, ...]]:
    """Tidy layouts of a motif, each another, on a board of that size, by chance from a seed.

    Every stroke has `least` to `most` cells; without `slants` all its steps are straight.
    """
    chance = Random(seed)  # noqa: S311 - the same layouts each time
    seen: set[frozenset[Stroke]] = set()
    for _ in range(MOST_DRAWN):
        strokes = tuple(MOTIFS[name](size, chance.randint(least, most), chance))
        fits = all(least <= len(stroke) <= most for stroke in strokes)
        straight = slants or all(map(_is_straight, strokes))
        if fits and straight and frozenset(strokes) not in seen and is_tidy(strokes, size):
            seen.add(frozenset(strokes))
            yield strokes


def _is_straight(stroke: Stroke) -> bool:
    return all(a[0] == b[0] or a[1] == b[1] for a, b in pairwise(stroke))
