"""Lines fitted to the pixels of an image that knows only black and white.

A line two and a bit pixels wide covers two of them here and three there, and the lines of one
grid would look unlike. So level and upright lines get whole pixels, and never fewer than their
width asks for. Slanting lines and curves stay as they are.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, floor
from typing import Final

from layout.picture.items import Contour, Group, Item, Point, Stroke

THIN: Final = 0.6
"""Grey strokes narrower than this, in millimetres, become black: dots would break them up."""

SLACK: Final = 0.05
"""Parts of a pixel that a line may lose rather than gain a whole one."""

_EPSILON: Final = 1e-6


@dataclass(frozen=True, slots=True)
class PixelGrid:
    """How many pixels a millimetre has, across and down."""

    across: float
    down: float

    def fitted(self, items: Sequence[Item], at: Point = (0.0, 0.0)) -> Iterator[Item]:
        """The items, which are drawn from a point on, with their lines on the pixels."""
        for item in items:
            if isinstance(item, Group):
                inner = self.fitted(item.items, (at[0] + item.x, at[1] + item.y))
                yield replace(item, items=tuple(inner))
            elif isinstance(item, Stroke) and item.grey < 1:
                yield self._stroke(item, at)
            else:
                yield item

    def _stroke(self, stroke: Stroke, at: Point) -> Stroke:
        """A stroke in solid ink where it is thin, on whole pixels where it is straight."""
        if stroke.width < THIN:
            stroke = replace(stroke, grey=0.0)
        if not all(_is_straight(contour) for contour in stroke.path):
            return stroke
        pixels = max(1, ceil(stroke.width * self.across - SLACK))
        path = tuple(self._contour(contour, pixels, at) for contour in stroke.path)
        return replace(stroke, path=path, width=pixels / self.across)

    def _contour(self, contour: Contour, pixels: int, at: Point) -> Contour:
        """The contour with its points where lines so many pixels wide end on whole pixels."""
        start, *others = (self._point(point, pixels, at) for point in _points(contour))
        return Contour(start, tuple(others), contour.closed)

    def _point(self, point: Point, pixels: int, at: Point) -> Point:
        x = _on_pixels((point[0] + at[0]) * self.across, pixels) / self.across - at[0]
        y = _on_pixels((point[1] + at[1]) * self.down, pixels) / self.down - at[1]
        return x, y


def _on_pixels(middle: float, pixels: int) -> float:
    """The nearest middle of a line so many pixels wide whose edges are those of pixels."""
    return floor(middle - pixels / 2 + 0.5 + _EPSILON) + pixels / 2


def _points(contour: Contour) -> list[Point]:
    return [contour.start, *((segment[-2], segment[-1]) for segment in contour.segments)]


def _is_straight(contour: Contour) -> bool:
    """Whether all of it is level or upright."""
    if any(len(segment) != 2 for segment in contour.segments):
        return False
    return all(
        abs(x1 - x2) < _EPSILON or abs(y1 - y2) < _EPSILON
        for (x1, y1), (x2, y2) in pairwise(_points(contour))
    )
