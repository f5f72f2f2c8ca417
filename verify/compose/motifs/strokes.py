"""Strokes: cells one after another, drawn on a square board; their copies, and what is tidy."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final, TypeAlias

Spot: TypeAlias = tuple[int, int]
"""Row and column, from 0."""

Stroke: TypeAlias = tuple[Spot, ...]
"""Spots each of which is a step, straight or slanted, from the one before."""

MOST_TOUCHES: Final = 1
"""Places in which two strokes may lie side by side."""

FEWEST_STROKES: Final = 2

SPARSE: Final = 0.17
"""The share of cells that strokes take at least."""

DENSE: Final = 0.6
"""The share of cells that strokes take at most."""


def turned(stroke: Stroke, size: int) -> Stroke:
    """A quarter turn, clockwise."""
    return tuple((column, size - 1 - row) for row, column in stroke)


def mirrored(stroke: Stroke, size: int) -> Stroke:
    """Left to right."""
    return tuple((row, size - 1 - column) for row, column in stroke)


def half_turned(stroke: Stroke, size: int) -> Stroke:
    """Upside down."""
    return turned(turned(stroke, size), size)


def pinwheel(strokes: Sequence[Stroke], size: int) -> list[Stroke]:
    """The strokes in all four quarter turns."""
    return [turn for stroke in strokes for turn in _turns(stroke, size)]


def _turns(stroke: Stroke, size: int) -> Iterator[Stroke]:
    for _ in range(4):
        yield stroke
        stroke = turned(stroke, size)


def twice(strokes: Sequence[Stroke], size: int) -> list[Stroke]:
    """The strokes and their half turns."""
    return [*strokes, *(half_turned(stroke, size) for stroke in strokes)]


def four_ways(strokes: Sequence[Stroke], size: int) -> list[Stroke]:
    """The strokes mirrored left to right, and all that upside down."""
    return twice([*strokes, *(mirrored(stroke, size) for stroke in strokes)], size)


def line(start: Spot, step: Spot, length: int) -> Stroke:
    """A straight stroke."""
    return tuple((start[0] + n * step[0], start[1] + n * step[1]) for n in range(length))


def is_tidy(strokes: Sequence[Stroke], size: int) -> bool:
    """Whether strokes lie on the board, apart from each other and from themselves, uncrossed.

    They must fill some of the board, and leave some of it. Where two steps cross, their four
    spots lie side by side, so that this is seen by the touches.
    """
    spots = [spot for stroke in strokes for spot in stroke]
    inside = all(0 <= row < size and 0 <= column < size for row, column in spots)
    share = len(spots) / size**2
    return (
        inside
        and len(strokes) >= FEWEST_STROKES
        and SPARSE <= share <= DENSE
        and len(set(spots)) == len(spots)
        and not any(map(_touches_itself, strokes))
        and all(_touches(*pair) <= MOST_TOUCHES for pair in combinations(strokes, 2))
    )


def _beside(one: Spot, other: Spot) -> bool:
    """Whether two spots share a side."""
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) == 1


def _touches_itself(stroke: Stroke) -> bool:
    apart = combinations(range(len(stroke)), 2)
    return any(b - a > 1 and _beside(stroke[a], stroke[b]) for a, b in apart)


def _touches(one: Stroke, other: Stroke) -> int:
    return sum(_beside(a, b) for a in one for b in other)
