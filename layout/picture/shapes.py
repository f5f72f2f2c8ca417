"""Contours of plain shapes."""

from collections.abc import Sequence
from itertools import pairwise
from math import acos, cos, hypot, pi, sin, tan
from typing import Final

from layout.picture.items import Contour, Path, Point, Segment

QUARTER: Final = 4 / 3 * tan(pi / 8)
"""How far a cubic's controls stand off to make a quarter of a unit circle."""

HEAD_ANGLE: Final = pi / 5.2
"""Half the opening of an arrowhead."""


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

    Round outside, with sharp inner corners. The line must not turn straight back.
    """
    if len(points) == 1:
        return disc(points[0], radius)
    segments = _flank(points, radius) + _flank(points[::-1], radius)
    start = (segments[0][-2], segments[0][-1])
    return Contour(start, tuple(segments[1:]), closed=True)


def arrowhead(tip: Point, ahead: Point, length: float) -> Contour:
    """An open head that long, in its direction: two arms that meet at the tip."""
    x, y = -ahead[0], -ahead[1]
    reach = length / cos(HEAD_ANGLE)
    one, other = (
        along(tip, (x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)), reach)
        for turn in (HEAD_ANGLE, -HEAD_ANGLE)
    )
    return polyline([one, tip, other])


def moved(path: Path, x: float, y: float, scale: float = 1.0) -> Path:
    """The path, scaled and then moved."""

    def place(segment: Segment) -> Segment:
        return tuple(value * scale + (y if i % 2 else x) for i, value in enumerate(segment))

    return tuple(
        Contour(
            (contour.start[0] * scale + x, contour.start[1] * scale + y),
            tuple(map(place, contour.segments)),
            contour.closed,
        )
        for contour in path
    )


def unit(start: Point, end: Point) -> Point:
    """The direction from one point to another, of length 1."""
    x, y = end[0] - start[0], end[1] - start[1]
    length = hypot(x, y)
    return x / length, y / length


def along(start: Point, direction: Point, length: float) -> Point:
    """The point that far from the start."""
    return start[0] + direction[0] * length, start[1] + direction[1] * length


def left_of(direction: Point) -> Point:
    """The direction to the left of someone who walks that way, y downwards."""
    return direction[1], -direction[0]


def _flank(points: Sequence[Point], radius: float) -> list[Segment]:
    """The left side of a capsule from its first point, and the half circle at the far end."""
    steps = [unit(a, b) for a, b in pairwise(points)]
    segments: list[Segment] = [along(points[0], left_of(steps[0]), radius)]
    for point, step, after in zip(points[1:], steps, steps[1:], strict=False):
        segments += _turn(point, left_of(step), left_of(after), radius)
    last, left = points[-1], left_of(steps[-1])
    right = (-left[0], -left[1])
    segments.append(along(last, left, radius))
    return [*segments, _arc(last, left, steps[-1], radius), _arc(last, steps[-1], right, radius)]


def _turn(point: Point, before: Point, after: Point, radius: float) -> list[Segment]:
    """How the flank goes round a bend: an arc outside it, a corner inside."""
    cross = before[0] * after[1] - before[1] * after[0]
    if cross > 0:
        return [along(point, before, radius), _arc(point, before, after, radius)]
    cosine = before[0] * after[0] + before[1] * after[1]
    middle = (before[0] + after[0], before[1] + after[1])
    return [along(point, middle, radius / (1 + cosine))]


def _arc(centre: Point, start: Point, end: Point, radius: float) -> Segment:
    """A curve round the centre from one direction to another, less than half a turn apart."""
    angle = acos(max(-1.0, min(1.0, start[0] * end[0] + start[1] * end[1])))
    # The tangent at the start, towards the end, and at the end, towards the start.
    sine, cosine = sin(angle), cos(angle)
    if sine == 0:
        return along(centre, end, radius)
    ahead = ((end[0] - start[0] * cosine) / sine, (end[1] - start[1] * cosine) / sine)
    back = ((start[0] - end[0] * cosine) / sine, (start[1] - end[1] * cosine) / sine)
    reach = 4 / 3 * tan(angle / 4) * radius
    near = along(along(centre, start, radius), ahead, reach)
    far = along(along(centre, end, radius), back, reach)
    return (*near, *far, *along(centre, end, radius))
