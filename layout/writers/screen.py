"""Greys as dots: an image of a few flat greys made into one of black and white.

The dots of one tint stand on a lattice that is turned by 45 degrees, as in a printer's screen,
so that a tint looks even.
"""

from functools import cache
from math import sqrt
from typing import Any, Final

LINES_PER_INCH: Final = 75
"""Dots an inch: a little coarser than newspapers' own screens of 85, for coldset presses."""

LEAST_PERIOD: Final = 4
"""Pixels from a dot to the next but one, straight on, where the resolution is low."""

WHITE: Final = 255


def screened(image: Any, dpi: int) -> Any:
    """A grey image without smooth edges in black and white: other greys become dots."""
    from PIL import Image

    result = image.copy()
    counts = image.histogram()
    for grey in range(1, WHITE):
        if counts[grey]:
            mask = image.point([WHITE if level == grey else 0 for level in range(256)])
            box = mask.getbbox()
            result.paste(_dots(box, 1 - grey / WHITE, period(dpi)), box, mask.crop(box))
    return result.convert("1", dither=Image.Dither.NONE)


def period(dpi: int) -> int:
    """Pixels after which the dots repeat across and down, an even number."""
    return max(LEAST_PERIOD, 2 * round(dpi * sqrt(2) / (2 * LINES_PER_INCH)))


def _dots(box: tuple[int, int, int, int], ink: float, side: int) -> Any:
    """Dots over a box of the image; those of all boxes stand on one lattice."""
    from PIL import Image

    left, top, right, bottom = box
    tile = Image.new("L", (side, side), WHITE)
    for x, y in dot_pixels(ink, side):
        tile.putpixel(((x - left) % side, (y - top) % side), 0)
    row = Image.new("L", (right - left, side))
    for x in range(0, row.width, side):
        row.paste(tile, (x, 0))
    pattern = Image.new("L", (right - left, bottom - top))
    for y in range(0, pattern.height, side):
        pattern.paste(row, (0, y))
    return pattern


@cache
def dot_pixels(ink: float, side: int) -> frozenset[tuple[int, int]]:
    """The black pixels of a tile: one dot around its corners and one, alike, in its middle."""
    half = side // 2
    upper = [(x, y) for y in range(half) for x in range(side)]
    nearest = sorted(upper, key=lambda pixel: _to_dot(pixel, side))
    black = nearest[: round(ink * len(upper))]
    return frozenset(black) | {((x + half) % side, (y + half) % side) for x, y in black}


def _to_dot(pixel: tuple[int, int], side: int) -> tuple[float, float, float]:
    """How far a pixel lies from the nearest dot, squared; ties go round the dot by its side."""
    (x, y), half = pixel, side / 2
    offsets = [
        (abs(dx), abs(dy), dx)
        for across, down in ((0, 0), (half, half))
        for dx in (_wrapped(x + 0.5 - across, side),)
        for dy in (_wrapped(y + 0.5 - down, side),)
    ]
    dx, dy, turn = min(offsets, key=lambda offset: offset[0] ** 2 + offset[1] ** 2)
    return dx**2 + dy**2, dx, turn


def _wrapped(distance: float, side: int) -> float:
    """A distance to the nearest repeat."""
    return (distance + side / 2) % side - side / 2
