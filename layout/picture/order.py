"""What is painted over what, everywhere: one list, from the bottom up."""

from collections.abc import Iterable
from enum import IntEnum
from typing import TypeAlias

from layout.picture.ink import in_ink
from layout.picture.items import Ink, Item


class Layer(IntEnum):
    """The layers of a board's picture, in order of painting."""

    AREA = 0
    """Grounds behind groups of cells."""
    AREA_EDGE = 1
    """Their edge lines: where two overlap both are seen."""
    TINT = 2
    """Shapes behind one digit."""
    TRAIL = 3
    """Broad shapes through cells."""
    RAY = 4
    """Thin lines across the board, seen over the broad shapes."""
    SHAFT = 5
    """Line-like shapes, that a thin line must not cut."""
    HALO = 6
    """White around the digits that a line runs behind."""
    GRID = 7
    """The lines between cells."""
    CAGE = 8
    """Outlines inside the cell edges."""
    FRAME = 9
    """Outlines around the cells and digits that a step of a walk speaks of."""
    SIGN = 10
    """What sits on edges and corners, with the ground that clears the lines for it."""
    LABEL = 11
    """Small numbers in corners."""
    CLUE = 12
    """What stands outside the board."""
    PENCIL = 13
    """Pencil marks."""
    DIGIT = 14
    """Givens and answers: nothing lies over them."""
    STRIKE = 15
    """The strokes through what is struck."""


Painted: TypeAlias = tuple[Layer, Item]


SHAPES = frozenset({Layer.AREA, Layer.AREA_EDGE, Layer.TINT, Layer.TRAIL, Layer.RAY, Layer.SHAFT})
"""The layers of what runs behind the digits."""


def shapes_in(ink: Ink | None, painted: Iterable[Painted]) -> list[Painted]:
    """What is painted, the shapes behind the digits in an ink if there is one beside black."""
    if ink is None:
        return list(painted)
    return [(layer, in_ink(item, ink) if layer in SHAPES else item) for layer, item in painted]


def in_order(painted: Iterable[Painted]) -> tuple[Item, ...]:
    """The items from the bottom up; within a layer the later one lies over the earlier."""
    return tuple(item for _, item in sorted(painted, key=lambda pair: pair[0]))
