"""What is too fine to print: thin lines, small letters, coarse images."""

from collections.abc import Iterator
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.checks.grid_labels import labels_among
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.marks import Paint

LEAST_LINE: Final = 0.25
"""Points (common practice of book printers)."""

ROUNDING: Final = 0.002

LONG: Final = 2.0
"""Points from which on a narrow filled shape is a line and not a corner of something."""

LEAST_PIXELS: Final = 300
LEAST_PIXELS_OF_LINES: Final = 600
"""Pixels an inch of tones, and of one bit (common practice of book printers)."""


def check_lines(file: FinishedFile) -> Iterator[Finding]:
    """The thinnest line of each page, if it is too thin."""
    for leaf in file.leaves:
        widths = [width for paint in leaf.marks.paints if (width := _width(paint)) is not None]
        thin = [width for width in widths if width < LEAST_LINE - ROUNDING]
        if thin:
            words = (
                f"{_lines(len(thin))} thinner than {LEAST_LINE} pt, the thinnest {min(thin):.3g}"
            )
            yield Finding("lines", leaf.number, words)


def _width(paint: Paint) -> float | None:
    """How thick a line is that prints, or a filled shape that looks like one."""
    if paint.stroke is not None and not paint.stroke.is_white:
        return paint.width
    if paint.fill is None or paint.fill.is_white:
        return None
    boxes = [contour.box for contour in paint.contours]
    sides = [sorted((box.width, box.height)) for box in boxes]
    return min((short for short, long in sides if long > LONG), default=None)


def _lines(count: int) -> str:
    return "a line" if count == 1 else f"{count} lines"


def check_type(file: FinishedFile, least: float, least_label: float) -> Iterator[Finding]:
    """The smallest letter of each page, if it is smaller than so many points.

    The labels of grids have a bound of their own.
    """
    for leaf in file.leaves:
        inked = [each for each in leaf.marks.letters if each.box and not each.ink.is_white]
        small = [each for each in inked if each.size < least - ROUNDING]
        large = [each for each in small if each.size >= least_label - ROUNDING]
        labels = labels_among(large, leaf) if large else []
        small = [each for each in small if each not in labels]
        if small:
            worst = min(small, key=lambda each: each.size)
            words = (
                f"{len(small)} letters under {least:g} pt, "
                f"the smallest {worst.text!r} in {worst.size:.3g} pt"
            )
            yield Finding("type", leaf.number, words)


def check_images(file: FinishedFile) -> Iterator[Finding]:
    """Images with too few pixels for their size."""
    for leaf in file.leaves:
        yield from _coarse(leaf)


def _coarse(leaf: Leaf) -> Iterator[Finding]:
    for image in leaf.marks.images:
        least = LEAST_PIXELS_OF_LINES if image.bits == 1 else LEAST_PIXELS
        if image.resolution < least - 0.5:
            words = f"an image of {image.resolution:.0f} pixels an inch, expected {least} or more"
            yield Finding("images", leaf.number, words)
