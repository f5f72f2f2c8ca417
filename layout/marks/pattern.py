"""Patterns along a line: dashes, dots and cross strokes, fitted to its straight stretches.

A bend is the middle of a dash or of a dot, and the line's ends are whole; what lies between is
spaced evenly. Cross strokes keep off bends and ends.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist

from layout.picture.items import Path, Point
from layout.picture.shapes import along, left_of, polyline, unit


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A straight part of a line; `opens` and `closes` say where the whole line ends."""

    start: Point
    end: Point
    opens: bool
    closes: bool

    @property
    def length(self) -> float:
        """Its length."""
        return dist(self.start, self.end)

    def at(self, distance: float) -> Point:
        """The point that far from its start."""
        return along(self.start, unit(self.start, self.end), distance)


@dataclass(frozen=True, slots=True)
class Broken:
    """A line as dashes, and the middles of the dots between them."""

    dashes: Path
    dots: tuple[Point, ...]


def dotted(line: Sequence[Point], spacing: float) -> tuple[Point, ...]:
    """The middles of dots about so far apart, one on either end and on every bend."""
    dots = [line[0]]
    for stretch in _stretches(line):
        count = max(1, round(stretch.length / spacing))
        dots += (stretch.at(stretch.length * step / count) for step in range(1, count + 1))
    return tuple(dots)


def broken(line: Sequence[Point], dash: float, gap: float) -> Broken:
    """Dashes and gaps of about these lengths; dots would stand in the middles of the gaps."""
    dashes: list[list[Point]] = []
    dots: list[Point] = []
    for stretch in _stretches(line):
        # A dash at the line's end has its middle half a dash inside; one at a bend upon it.
        share = dash / (dash + gap)
        ends = stretch.opens + stretch.closes
        count = max(1, round(stretch.length / (dash + gap) - ends * share / 2))
        period = stretch.length / (count + ends * share / 2)
        half = period * share / 2
        first = half if stretch.opens else 0.0
        middles = [first + index * period for index in range(count + 1)]
        for middle in middles:
            low, high = max(middle - half, 0.0), min(middle + half, stretch.length)
            arm = [stretch.at(low), stretch.at(high)]
            if middle == 0.0:
                dashes[-1].append(arm[1])
            else:
                dashes.append(arm)
        dots += (stretch.at(middle + period / 2) for middle in middles[:-1])
    return Broken(tuple(map(polyline, dashes)), tuple(dots))


def cross_strokes(line: Sequence[Point], spacing: float, length: float) -> Iterator[list[Point]]:
    """Strokes across the line about so far apart, each so long, its middle on the line."""
    for stretch in _stretches(line):
        count = max(1, round(stretch.length / spacing))
        for index in range(count):
            middle = stretch.at(stretch.length * (index + 0.5) / count)
            yield stroke_across(middle, unit(stretch.start, stretch.end), length)


def stroke_across(middle: Point, ahead: Point, length: float) -> list[Point]:
    """Both ends of a stroke at right angles to a direction."""
    left = left_of(ahead)
    return [along(middle, left, length / 2), along(middle, left, -length / 2)]


def _stretches(line: Sequence[Point]) -> list[_Stretch]:
    """The straight parts between the line's ends and bends."""
    corners = [line[0]]
    for before, point, after in zip(line, line[1:], line[2:], strict=False):
        if dist(unit(before, point), unit(point, after)) > 1e-6:
            corners.append(point)
    corners.append(line[-1])
    last = len(corners) - 2
    return [
        _Stretch(start, end, index == 0, index == last)
        for index, (start, end) in enumerate(pairwise(corners))
    ]
