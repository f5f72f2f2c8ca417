"""The plain check of many full grids at once: what `holds` of rows, columns and boxes asks of one.

It knows neither candidates nor clauses, and shares nothing with what finds the grids.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, TypeAlias

from verify.board import Cell

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

Digits: TypeAlias = "NDArray[numpy.uint8]"
Flags: TypeAlias = "NDArray[numpy.bool_]"


def keep_all(grids: Digits, givens: Digits, houses: Sequence[Sequence[Cell]]) -> Flags:
    """Which grids have every digit in every house, and all givens where they stand.

    Both arrays have a row for each puzzle and a column for each cell.
    """
    import numpy

    in_houses = numpy.sort(grids[:, numpy.array(houses)], axis=2)
    every_digit = (in_houses == numpy.arange(1, in_houses.shape[2] + 1)).all(axis=(1, 2))
    kept: Flags = every_digit & ((givens == 0) | (givens == grids)).all(axis=1)
    return kept
