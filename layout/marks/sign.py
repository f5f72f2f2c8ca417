"""Signs on the edge between two cells, each on its own white ground."""

from collections.abc import Iterator

from layout.marks.lattice import Lattice
from layout.picture.items import Contour, Fill, Point, Stroke
from layout.picture.order import Layer, Painted
from layout.picture.shapes import along, left_of, polyline, unit
from layout.style.board import SignLook
from verify.board import Board
from verify.marks import Sign


def draw(mark: Sign, look: SignLook, lattice: Lattice) -> Iterator[Painted]:
    """A chevron that opens towards the first cell, its middle on the middle of the edge."""
    larger, smaller = lattice.centre(mark.cells[0]), lattice.centre(mark.cells[1])
    ahead = unit(larger, smaller)
    middle = along(larger, ahead, lattice.side / 2)
    length, spread = look.length * lattice.side / 2, look.spread * lattice.side / 2
    ground = look.ground * lattice.side
    yield Layer.SIGN, Fill((_ground(middle, ahead, length + ground, spread + ground),), 1.0)
    tip = along(middle, ahead, length)
    back = along(middle, ahead, -length)
    left = left_of(ahead)
    chevron = polyline([along(back, left, spread), tip, along(back, left, -spread)])
    yield Layer.SIGN, Stroke((chevron,), look.line.at(lattice.side))


def _ground(middle: Point, ahead: Point, length: float, spread: float) -> Contour:
    """The rectangle around the sign."""
    left = left_of(ahead)
    front, back = along(middle, ahead, length), along(middle, ahead, -length)
    corners = [(front, spread), (front, -spread), (back, -spread), (back, spread)]
    return polyline([along(end, left, reach) for end, reach in corners], closed=True)


def tell(mark: Sign, board: Board) -> str:
    """Which cell is the greater."""
    return f"{board.name(mark.cells[0])} > {board.name(mark.cells[1])}"
