"""Colours as the greys that they are printed in."""

from collections.abc import Sequence

from layout.artwork.artwork import CannotPlace


def grey_of(values: Sequence[float]) -> float:
    """The grey (0 is black) of one, three or four components from 0 to 1.

    Three are red, green and blue, four are inks (ISO 32000-1, 10.3.2 and 10.3.3). Raises
    CannotPlace for another number of them.
    """
    if len(values) == 1:
        return _bounded(values[0])
    if len(values) == 3:
        return _bounded(_weighted(*values))
    if len(values) == 4:
        return _bounded(1 - _weighted(*values[:3]) - values[3])
    raise CannotPlace(f"it has a colour of {len(values)} components")


def is_coloured(values: Sequence[float]) -> bool:
    """Whether components make a colour that is not grey."""
    return len(values) >= 3 and max(values[:3]) - min(values[:3]) > 1e-6


def _weighted(red: float, green: float, blue: float) -> float:
    return 0.3 * red + 0.59 * green + 0.11 * blue


def _bounded(grey: float) -> float:
    return min(max(grey, 0.0), 1.0)
