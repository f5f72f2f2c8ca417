"""Areas: a ground behind a group of cells, its label in the upper right corner of its first.

The left corner is a cage's: both may begin in the same cell.
"""

from collections.abc import Iterator

from layout.marks.label import corner_label
from layout.marks.lattice import Lattice
from layout.marks.outline import inset, outlines
from layout.picture.items import Fill, Stroke
from layout.picture.order import Layer, Painted
from layout.picture.shapes import polyline
from layout.style.board import AreaLook
from verify.board import Board
from verify.marks import Area


def draw(mark: Area, look: AreaLook, lattice: Lattice) -> Iterator[Painted]:
    """The ground, its edge line inside the cells' edges, and the label."""
    loops = outlines(lattice.board, mark.cells)
    ground = tuple(polyline(inset(loop, 0.0, lattice), closed=True) for loop in loops)
    yield Layer.AREA, Fill(ground, 1 - look.ink)
    edge = look.edge.at(lattice.side)
    if edge:
        distance = look.inset * lattice.side
        line = tuple(polyline(inset(loop, distance, lattice), closed=True) for loop in loops)
        yield Layer.AREA_EDGE, Stroke(line, edge, 1 - look.edge_ink)
    if mark.label:
        label = corner_label(mark.label, min(mark.cells), look, lattice, "right")
        yield Layer.LABEL, label


def tell(mark: Area, board: Board) -> str:
    """The role, the label and the cells."""
    label = f" {mark.label}" if mark.label else ""
    return f"{mark.role}{label}: {' '.join(map(board.name, mark.cells))}"
