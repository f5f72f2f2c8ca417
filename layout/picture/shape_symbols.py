"""Simple drawn shapes that can stand in a grid in place of digits.

Each is told from the others by its outline alone, filled or not, and is easily drawn by a child.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import cos, pi, sin
from typing import Final

from layout.picture.items import Contour, Fill, Item, Path, Point, Stroke
from layout.picture.shapes import moved, polyline

LINE: Final = 0.055
"""The width of a shape's lines, as a share of its size."""


@dataclass(frozen=True, slots=True)
class DrawnShape:
    """Outlines, and lines inside them, in a square of side 1 around (0, 0)."""

    outline: Path
    inside: Path = ()

    def solid(self, centre: Point, size: float) -> Iterator[Item]:
        """Filled black, the lines inside white."""
        outline, line = moved(self.outline, *centre, size), LINE * size
        yield Fill(outline)
        yield Stroke(outline, line, join="round")
        if self.inside:
            yield Stroke(moved(self.inside, *centre, size), line, 1.0, cap="round")

    def open(self, centre: Point, size: float) -> Iterator[Item]:
        """Drawn with lines on white."""
        outline, line = moved(self.outline, *centre, size), LINE * size
        yield Fill(outline, 1.0)
        yield Stroke(
            (*outline, *moved(self.inside, *centre, size)), line, cap="round", join="round"
        )

    def halo(self, centre: Point, size: float, edge: float) -> Stroke:
        """White around the outlines, where a line runs behind them."""
        outline = moved(self.outline, *centre, size)
        return Stroke(outline, LINE * size + edge, 1.0, join="round")


def _closed(start: Point, *segments: tuple[float, ...]) -> Contour:
    return Contour(start, segments, closed=True)


def _star() -> Contour:
    """Five points, one upwards."""
    corners = [
        (radius * sin(turn * pi / 5), 0.04 - radius * cos(turn * pi / 5))
        for turn in range(10)
        for radius in ((0.5, 0.21)[turn % 2],)
    ]
    return polyline(corners, closed=True)


SHAPES: Final[Mapping[str, DrawnShape]] = {
    "drop": DrawnShape(
        (
            _closed(
                (0.0, -0.5),
                (0.08, -0.26, 0.34, -0.06, 0.34, 0.16),
                (0.34, 0.36, 0.19, 0.5, 0.0, 0.5),
                (-0.19, 0.5, -0.34, 0.36, -0.34, 0.16),
                (-0.34, -0.06, -0.08, -0.26, 0.0, -0.5),
            ),
        )
    ),
    "star": DrawnShape((_star(),)),
    "fish": DrawnShape(
        (
            _closed(
                (-0.5, 0.0),
                (-0.34, -0.32, 0.04, -0.36, 0.22, -0.07),
                (0.48, -0.28),
                (0.41, 0.0),
                (0.48, 0.28),
                (0.22, 0.07),
                (0.04, 0.36, -0.34, 0.32, -0.5, 0.0),
            ),
        ),
        (polyline([(-0.27, -0.06), (-0.26, -0.06)]),),
    ),
    "boat": DrawnShape(
        (
            polyline([(-0.5, 0.2), (0.5, 0.2), (0.3, 0.46), (-0.3, 0.46)], closed=True),
            polyline([(0.04, -0.48), (0.42, 0.09), (0.04, 0.09)], closed=True),
            polyline([(-0.08, -0.34), (-0.08, 0.09), (-0.36, 0.09)], closed=True),
        )
    ),
    "leaf": DrawnShape(
        (
            _closed(
                (-0.32, 0.32),
                (-0.52, -0.12, -0.16, -0.46, 0.44, -0.44),
                (0.46, 0.16, 0.12, 0.52, -0.32, 0.32),
            ),
            polyline([(-0.32, 0.32), (-0.46, 0.46)]),
        ),
        (polyline([(-0.3, 0.3), (0.18, -0.18)]),),
    ),
    "moon": DrawnShape(
        (
            _closed(
                (0.16, -0.47),
                (-0.22, -0.5, -0.46, -0.26, -0.44, 0.05),
                (-0.42, 0.34, -0.16, 0.52, 0.12, 0.49),
                (0.26, 0.47, 0.38, 0.4, 0.46, 0.28),
                (0.2, 0.34, 0.0, 0.2, -0.04, -0.05),
                (-0.06, -0.24, 0.03, -0.38, 0.16, -0.47),
            ),
        )
    ),
    "wave": DrawnShape(
        (
            _closed(
                (-0.5, 0.0),
                (-0.33, -0.44, -0.1, -0.34, 0.0, -0.1),
                (0.1, 0.1, 0.33, 0.16, 0.5, -0.18),
                (0.5, 0.18),
                (0.33, 0.5, 0.1, 0.44, 0.0, 0.2),
                (-0.1, 0.0, -0.33, -0.08, -0.5, 0.32),
            ),
        )
    ),
    "shell": DrawnShape(
        (
            _closed(
                (-0.13, 0.46),
                (0.13, 0.46),
                (0.15, 0.32),
                (0.48, -0.04),
                (0.42, -0.62, -0.42, -0.62, -0.48, -0.04),
                (-0.15, 0.32),
            ),
        ),
        (
            polyline([(0.0, 0.24), (0.0, -0.3)]),
            polyline([(0.05, 0.24), (0.25, -0.2)]),
            polyline([(-0.05, 0.24), (-0.25, -0.2)]),
        ),
    ),
    "reed": DrawnShape(
        (
            _closed(
                (-0.14, -0.36),
                (-0.14, -0.54, 0.14, -0.54, 0.14, -0.36),
                (0.14, -0.04),
                (0.14, 0.1, -0.14, 0.1, -0.14, -0.04),
            ),
            polyline([(0.0, 0.06), (0.0, 0.5)]),
            _closed(
                (0.0, 0.48),
                (0.04, 0.22, 0.16, 0.06, 0.4, -0.04),
                (0.36, 0.22, 0.2, 0.4, 0.0, 0.48),
            ),
        )
    ),
}
"""The shapes by their names, those first that differ most."""


def first_shapes(count: int) -> tuple[str, ...]:
    """The names of so many shapes, at most `len(SHAPES)`."""
    return tuple(SHAPES)[:count]


def are_shapes(symbols: Sequence[str]) -> bool:
    """Whether a puzzle's symbols are drawn, not written."""
    return all(symbol in SHAPES for symbol in symbols)
