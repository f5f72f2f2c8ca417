"""Rays: a straight line right across the cells."""

from collections.abc import Iterator

from layout.marks.lattice import Lattice
from layout.picture.items import Stroke
from layout.picture.order import Layer, Painted
from layout.picture.shapes import along, polyline, unit
from layout.style.board import RayLook
from verify.board import Board
from verify.marks import Ray


def draw(mark: Ray, look: RayLook, lattice: Lattice) -> Iterator[Painted]:
    """From the far edge or corner of the first cell to that of the last."""
    first, last = lattice.centre(mark.cells[0]), lattice.centre(mark.cells[-1])
    ahead = unit(first, last)
    # To the cell's edge: half a side where the line is straight, half a diagonal where not.
    reach = lattice.side / 2 / max(abs(ahead[0]), abs(ahead[1]))
    line = polyline([along(first, ahead, -reach), along(last, ahead, reach)])
    yield Layer.RAY, Stroke((line,), look.line.at(lattice.side), 1 - look.ink)


def tell(mark: Ray, board: Board) -> str:
    """The role and the ends."""
    return f"{mark.role}: {board.name(mark.cells[0])} to {board.name(mark.cells[-1])}"
