"""What is painted over what, everywhere: one list, from the bottom up."""

from collections.abc import Iterable
from enum import IntEnum
from typing import TypeAlias

from layout.picture.items import Item


class Layer(IntEnum):
    """The layers of a board's picture, in order of painting."""

    TINT = 0
    """Shapes behind one digit."""
    TRAIL = 1
    """Broad shapes through cells."""
    RAY = 2
    """Thin lines across the board, seen over the broad shapes."""
    SHAFT = 3
    """Line-like shapes, that a thin line must not cut."""
    HALO = 4
    """White around the digits that a line runs behind."""
    GRID = 5
    """The lines between cells."""
    CAGE = 6
    """Outlines inside the cell edges."""
    SIGN = 7
    """Signs on the edges, with the ground that clears the lines for them."""
    LABEL = 8
    """Small numbers in corners."""
    DIGIT = 9
    """Givens and answers: nothing lies over them."""


Painted: TypeAlias = tuple[Layer, Item]


SHAPES = frozenset({Layer.TINT, Layer.TRAIL, Layer.RAY, Layer.SHAFT})
"""The layers of what runs behind the digits."""


def in_order(painted: Iterable[Painted]) -> tuple[Item, ...]:
    """The items from the bottom up; within a layer the later one lies over the earlier."""
    return tuple(item for _, item in sorted(painted, key=lambda pair: pair[0]))
