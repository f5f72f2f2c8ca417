"""Points, boxes and matrices of a page, in points of 1/72 inch, y upwards."""

from collections.abc import Iterable
from math import hypot
from typing import NamedTuple, TypeAlias

Point: TypeAlias = tuple[float, float]

Matrix: TypeAlias = tuple[float, float, float, float, float, float]
"""The six numbers of ISO 32000-1, 8.3.3."""

UNMOVED: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class Box(NamedTuple):
    """A rectangle with level and upright sides."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The middle."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def holds(self, inner: "Box", slack: float = 0.0) -> bool:
        """Whether another box lies inside, but for so much."""
        return (
            inner.left >= self.left - slack
            and inner.bottom >= self.bottom - slack
            and inner.right <= self.right + slack
            and inner.top <= self.top + slack
        )

    def has(self, point: Point) -> bool:
        """Whether a point lies inside."""
        return self.left <= point[0] <= self.right and self.bottom <= point[1] <= self.top

    def grown(self, by: float) -> "Box":
        """The box with so much more on every side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def common(self, other: "Box") -> "Box":
        """What two boxes share; its sides are crossed over where that is nothing."""
        return Box(
            max(self.left, other.left),
            max(self.bottom, other.bottom),
            min(self.right, other.right),
            min(self.top, other.top),
        )

    def meets(self, other: "Box") -> bool:
        """Whether two boxes share anything."""
        return (
            self.left <= other.right
            and other.left <= self.right
            and self.bottom <= other.top
            and other.bottom <= self.top
        )

    def is_empty(self) -> bool:
        """Whether there is nothing in it, not even a line."""
        return self.left > self.right or self.bottom > self.top

    def distance(self, other: "Box") -> float:
        """The gap between two boxes; 0 where they meet."""
        across = max(other.left - self.right, self.left - other.right, 0.0)
        down = max(other.bottom - self.top, self.bottom - other.top, 0.0)
        return hypot(across, down)


def box_around(points: Iterable[Point]) -> Box:
    """The smallest box that holds points, of which there is at least one."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def around_all(boxes: Iterable[Box]) -> Box:
    """The smallest box that holds boxes, of which there is at least one."""
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return Box(min(lefts), min(bottoms), max(rights), max(tops))


def applied(matrix: Matrix, x: float, y: float) -> Point:
    """Where a matrix puts a point."""
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def after(first: Matrix, then: Matrix) -> Matrix:
    """The matrix that does one thing and then another."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )


def scale_of(matrix: Matrix) -> float:
    """By how much a matrix makes lengths larger: the root of what it does to areas."""
    a, b, c, d, _, _ = matrix
    return float(abs(a * d - b * c) ** 0.5)
