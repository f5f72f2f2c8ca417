"""Kinds of array, by what their numbers are; the shape is said where one is used.

numpy takes a tenth of a second to import, so it is imported where arrays are made.
"""

from typing import TYPE_CHECKING, Final, TypeAlias

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

Masks: TypeAlias = "NDArray[numpy.unsignedinteger]"
"""Digits of a cell as bits, as in `verify.pencil`: what is left of it, or what leaves it."""

Flags: TypeAlias = "NDArray[numpy.bool_]"
"""Yes or no."""

Numbers: TypeAlias = "NDArray[numpy.intp]"
"""Numbers of cells, rows, or other places to look up."""

Digits: TypeAlias = "NDArray[numpy.uint8]"
"""Digits as they are written."""

Words: TypeAlias = "NDArray[numpy.uint64]"
"""Ways of a list as bits, 64 to a number."""

MOST_SHORT_DIGITS: Final = 15
"""Digits whose bits have room in a number of 16."""


def kind_of(digits: int) -> "type[numpy.unsignedinteger]":
    """The kind of number with room for so many digits as bits."""
    import numpy

    return numpy.uint16 if digits <= MOST_SHORT_DIGITS else numpy.uint32
