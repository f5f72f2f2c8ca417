"""A picture's file -> Artwork, by what kind of file it is."""

from collections.abc import Callable, Mapping
from typing import Final

from layout.artwork.artwork import Artwork, CannotPlace
from layout.artwork.pdf_artwork import pdf_artwork
from layout.artwork.png_artwork import png_artwork
from layout.artwork.svg_artwork import svg_artwork

READERS: Final[Mapping[str, Callable[[bytes], Artwork]]] = {
    ".svg": svg_artwork,
    ".pdf": pdf_artwork,
    ".png": png_artwork,
}
"""What reads a file, by the ending of its name."""

MOST_BYTES: Final = 32 << 20
"""The largest file that is read."""

LONGEST_SHAPE: Final = 20.0
"""How many times as long as wide a picture may be, or the other way round."""


def read_artwork(data: bytes, suffix: str) -> Artwork:
    """The picture of a file's bytes; `suffix` is the ending of its name, in small letters.

    Raises CannotPlace.
    """
    artwork = READERS[suffix](data)
    sides = sorted((artwork.width, artwork.height))
    if sides[0] <= 0 or sides[1] > LONGEST_SHAPE * sides[0]:
        raise CannotPlace(f"it is more than {LONGEST_SHAPE:g} times as long as wide, or empty")
    if not artwork.items:
        raise CannotPlace("nothing is drawn on it")
    return artwork
