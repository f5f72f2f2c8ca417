"""The cells that a step rests on: a ground under them and a line around them."""

from collections.abc import Iterator, Sequence
from typing import Final

from layout.marks.lattice import Lattice
from layout.marks.outline import inset, outlines
from layout.picture.items import Fill, Path, Stroke
from layout.picture.order import Layer, Painted
from layout.picture.shapes import polyline
from layout.style.board import StepLook
from verify.board import Cell

DASH: Final = 0.17
"""The length of a dash around a house, as a share of a cell."""


def reason(cells: Sequence[Cell], look: StepLook, lattice: Lattice) -> Iterator[Painted]:
    """Ground and line; cells that lie side by side share them."""
    if cells:
        yield _ground(cells, look, lattice)
        yield Layer.FRAME, Stroke(_outline(cells, look, lattice), look.edge.at(lattice.side))


def dead_house(cells: Sequence[Cell], look: StepLook, lattice: Lattice) -> Iterator[Painted]:
    """The house in which a digit has no cell left: the same ground, and a broken line."""
    width = look.box.at(lattice.side)
    dash = DASH * lattice.side
    yield _ground(cells, look, lattice)
    yield Layer.FRAME, Stroke(_outline(cells, look, lattice), width, dash=(dash, dash / 2))


def _ground(cells: Sequence[Cell], look: StepLook, lattice: Lattice) -> Painted:
    return Layer.AREA, Fill(_loops(cells, 0.0, lattice), 1 - look.reason)


def _outline(cells: Sequence[Cell], look: StepLook, lattice: Lattice) -> Path:
    return _loops(cells, look.inset * lattice.side, lattice)


def _loops(cells: Sequence[Cell], distance: float, lattice: Lattice) -> Path:
    loops = outlines(lattice.board, cells)
    return tuple(polyline(inset(loop, distance, lattice), closed=True) for loop in loops)
