"""Tints: a square or a disc behind the digit of one cell."""

from collections.abc import Iterator

from layout.marks.lattice import Lattice
from layout.picture.items import Fill, Stroke
from layout.picture.order import Layer, Painted
from layout.picture.shapes import disc, rectangle
from layout.style.board import TintLook
from verify.board import Board
from verify.marks import Tint


def draw(mark: Tint, look: TintLook, lattice: Lattice) -> Iterator[Painted]:
    """The shape, and its edge line just inside its outline where it has one."""
    edge = look.edge.at(lattice.side)
    half = (look.size * lattice.side - edge) / 2
    x, y = lattice.centre(mark.cell)
    square = mark.shape == "square"
    contour = rectangle(x - half, y - half, 2 * half, 2 * half) if square else disc((x, y), half)
    yield Layer.TINT, Fill((contour,), 1 - look.ink)
    if edge:
        yield Layer.TINT, Stroke((contour,), edge, 1 - look.edge_ink)


def tell(mark: Tint, board: Board) -> str:
    """The role and the cell."""
    return f"{mark.role}: {board.name(mark.cell)}"
