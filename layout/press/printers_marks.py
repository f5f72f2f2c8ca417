"""Marks outside the bleed that tell where a sheet is cut and folded."""

from collections.abc import Iterable, Iterator
from typing import Final

from layout.picture.items import Contour, Item, Stroke
from layout.picture.shapes import polyline

WIDTH: Final = 0.25 * 25.4 / 72
"""A quarter of a point: the finest line that every press holds (common practice, no source)."""

LENGTH: Final = 5.0
GAP: Final = 2.0
"""How long a mark is, and how far it stays from the bleed, in millimetres."""

SLUG: Final = GAP + LENGTH + 1.0
"""The room around the bleed that marks need."""

FOLD_DASH: Final = (1.0, 0.7)


def crop_marks(left: float, right: float, top: float, foot: float, bleed: float) -> Iterator[Item]:
    """Two lines at each corner of a trim."""
    near, far = bleed + GAP, bleed + GAP + LENGTH
    lines = [polyline([(x, y - far), (x, y - near)]) for x in (left, right) for y in (top,)]
    lines += [polyline([(x, foot + near), (x, foot + far)]) for x in (left, right)]
    lines += [polyline([(left - far, y), (left - near, y)]) for y in (top, foot)]
    lines += [polyline([(right + near, y), (right + far, y)]) for y in (top, foot)]
    yield Stroke(tuple(lines), WIDTH)


def fold_marks(folds: Iterable[float], top: float, foot: float, bleed: float) -> Iterator[Item]:
    """A broken line above and below the trim at each fold."""
    near, far = bleed + GAP, bleed + GAP + LENGTH
    lines: list[Contour] = []
    for x in folds:
        lines += (polyline([(x, top - far), (x, top - near)]),)
        lines += (polyline([(x, foot + near), (x, foot + far)]),)
    yield Stroke(tuple(lines), WIDTH, dash=FOLD_DASH)
