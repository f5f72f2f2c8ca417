"""Numbers as the content of a page has them."""

from functools import lru_cache
from typing import Final

KEPT_NUMBERS: Final = 16384
"""Numbers that are kept as they were written: those of grids come again on every page."""


@lru_cache(KEPT_NUMBERS)
def coordinate(points: float) -> str:
    """A coordinate in points, to a third of a micrometre."""
    return plain(round(points, 3))


@lru_cache(KEPT_NUMBERS)
def plain(value: float) -> str:
    """A number without an exponent, with six digits behind the point at most."""
    from reportlab.lib.rl_accel import fp_str

    return str(fp_str(value))
