"""The kinds of mark that a rule can ask to have drawn.

A mark is a fact in cells with a role name: no points, no colours. `layout.marks` has one
drawer a kind; how a role looks stands in the style sheet under that role's name.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from verify.board import Cell, Outside


@dataclass(frozen=True, slots=True)
class Trail:
    """A shape drawn through the middles of cells.

    `branches` are paths from a common start; where it forks they share their first cells.
    `start` and `end` say what stands at the first and at each last cell. With a `ring` the
    shape leaves from the rim of the outline around those cells instead of from a middle.
    """

    role: str
    branches: tuple[tuple[Cell, ...], ...]
    start: Literal["bulb", "plain", "circle"] = "plain"
    end: Literal["plain", "arrowhead", "circle"] = "plain"
    ring: tuple[Cell, ...] = ()


@dataclass(frozen=True, slots=True)
class Cage:
    """An outline just inside the edges of a group of cells, with a label in its first corner."""

    role: str
    cells: tuple[Cell, ...]
    label: str = ""


@dataclass(frozen=True, slots=True)
class Tint:
    """A shape behind the digit of one cell.

    `inward` and `outward` are small heads at the middles of its four edges that point so.
    """

    role: str
    cell: Cell
    shape: Literal["disc", "square", "inward", "outward"]


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign on the edge between two cells; `greater` opens towards `cells[0]`."""

    role: str
    cells: tuple[Cell, Cell]
    sign: Literal["greater"]


@dataclass(frozen=True, slots=True)
class Badge:
    """A small disc on the edge that two cells share, or on the corner that four cells share.

    `cells` are those two or four. Its label, where there is one, stands in the disc.
    `digits` are printed as the puzzle's symbols.
    """

    role: str
    cells: tuple[Cell, ...]
    label: str = ""
    digits: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Area:
    """A ground behind a group of cells, with a label in the corner of its first cell."""

    role: str
    cells: tuple[Cell, ...]
    label: str = ""


@dataclass(frozen=True, slots=True)
class Clue:
    """A label outside the board; where it looks along a diagonal an arrow says which.

    `digits` are printed as the puzzle's symbols. With an `arrow` nothing but that is drawn, and
    it points onto the board or away from it.
    """

    role: str
    outside: Outside
    label: str = ""
    digits: tuple[int, ...] = ()
    arrow: Literal["", "in", "out"] = ""


@dataclass(frozen=True, slots=True)
class Ray:
    """A straight line right across the cells, corner to corner for a diagonal."""

    role: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Border:
    """A heavy outline around a block of cells, drawn as part of the grid."""

    role: str
    cells: tuple[Cell, ...]


Mark: TypeAlias = Trail | Cage | Tint | Sign | Badge | Area | Clue | Ray | Border
