"""A picture that was drawn elsewhere."""

from dataclasses import dataclass, replace

from layout.picture.items import Contour, Fill, Insert


class CannotPlace(Exception):  # noqa: N818 - what is wrong with the file, in the editor's words
    """A picture that can't be printed as it is; the message says why, and what to do."""


@dataclass(frozen=True, slots=True)
class Artwork:
    """A picture in greys, in a size of its own; both lengths in millimetres.

    `pixels` are how many it has across, 0 where it is of lines and areas; `bits` are those of a
    pixel. `coloured` tells that it had colours.
    """

    width: float
    height: float
    items: tuple[Fill | Insert, ...]
    pixels: int = 0
    bits: int = 8
    coloured: bool = False

    def as_wide(self, width: float) -> tuple[Fill | Insert, ...]:
        """Its items where it is so wide, its upper left corner at 0, 0."""
        scale = width / self.width
        return tuple(_scaled(item, scale) for item in self.items)

    def height_at(self, width: float) -> float:
        """How high it is where it is so wide."""
        return self.height * width / self.width

    def resolution_at(self, width: float) -> float:
        """Its pixels an inch where it is so wide, in millimetres."""
        return self.pixels / width * 25.4


def _scaled(item: Fill | Insert, scale: float) -> Fill | Insert:
    if isinstance(item, Fill):
        return replace(item, path=tuple(_contour(each, scale) for each in item.path))
    return replace(
        item,
        x=item.x * scale,
        y=item.y * scale,
        width=item.width * scale,
        height=item.height * scale,
    )


def _contour(contour: Contour, scale: float) -> Contour:
    x, y = contour.start
    segments = tuple(tuple(number * scale for number in each) for each in contour.segments)
    return replace(contour, start=(x * scale, y * scale), segments=segments)
