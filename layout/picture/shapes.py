"""Contours of plain shapes."""

from collections.abc import Sequence
from math import cos, hypot, pi, sin, tan
from typing import Final

from layout.picture.items import Contour, Point, Segment

QUARTER: Final = 4 / 3 * tan(pi / 8)
"""How far a cubic's controls stand off to make a quarter of a unit circle."""


def polyline(points: Sequence[Point], closed: bool = False) -> Contour:
    """Straight lines from point to point."""
    return Contour(points[0], tuple(points[1:]), closed)


def rectangle(left: float, top: float, width: float, height: float) -> Contour:
    """A rectangle."""
    right, bottom = left + width, top + height
    return polyline([(left, top), (right, top), (right, bottom), (left, bottom)], closed=True)


def disc(centre: Point, radius: float) -> Contour:
    """A circle of four curves; off by less than 0.03 % of its radius."""
    x, y = centre
    k = QUARTER * radius
    segments = (
        (x + radius, y + k, x + k, y + radius, x, y + radius),
        (x - k, y + radius, x - radius, y + k, x - radius, y),
        (x - radius, y - k, x - k, y - radius, x, y - radius),
        (x + k, y - radius, x + radius, y - k, x + radius, y),
    )
    return Contour((x + radius, y), segments, closed=True)


def capsule(points: Sequence[Point], radius: float) -> Contour:
    """The outline of all that lies within `radius` of a line through the points.

    Round outside, with sharp inner corners. The line must not turn back on itself.
    """
    if len(points) == 1:
        return disc(points[0], radius)
    there = _flank(points, radius)
    back = _flank(points[::-1], radius)
    return Contour(there[0][-2:], (*there[1:], *back), closed=True)  # type: ignore[arg-type]


def _flank(points: Sequence[Point], radius: float) -> list[Segment]:
    """One side of a capsule, to the left as one walks, and the half circle at the far end."""
    steps = [unit(a, b) for a, b in zip(points, points[1:], strict=False)]
    segments: list[Segment] = [_beside(points[0], steps[0], radius)]
    for point, step, after in zip(points[1:], steps, steps[1:], strict=False):
        segments += _turn(point, step, after, radius)
    last, step = points[-1], steps[-1]
    segments.append(_beside(last, step, radius))
    ahead = (-step[1], step[0])
    return segments + _arc(last, step, ahead, radius) + _arc(last, ahead, (-step[0], -step[1]), radius)
