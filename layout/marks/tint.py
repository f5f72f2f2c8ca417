"""Tints: a square or a disc behind the digit of one cell, or small heads around it."""

from collections.abc import Iterator
from typing import Final

from layout.marks.lattice import Lattice
from layout.picture.items import Contour, Fill, Stroke
from layout.picture.order import Layer, Painted
from layout.picture.shapes import along, disc, left_of, polyline, rectangle
from layout.style.board import TintLook
from verify.board import COMPASS, SIDES, Board
from verify.marks import Tint

HEAD_INSET: Final = 0.06
"""How far a head keeps off the cell's edge, as a share of the cell."""

HEAD_SPREAD: Final = 1.6
"""How wide a head is at its back, in lengths."""


def draw(mark: Tint, look: TintLook, lattice: Lattice) -> Iterator[Painted]:
    """The shape, and its edge line where it has one: just inside its outline, or around heads."""
    if mark.shape in ("inward", "outward"):
        yield from _draw_heads(mark, look, lattice)
        return
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


def _draw_heads(mark: Tint, look: TintLook, lattice: Lattice) -> Iterator[Painted]:
    """Four solid heads; they lie over what runs through the cell."""
    heads = tuple(_heads(mark, look, lattice))
    edge = look.edge.at(lattice.side)
    if edge:
        yield Layer.SIGN, Stroke(heads, 2 * edge, 1 - look.edge_ink)
    yield Layer.SIGN, Fill(heads, 1 - look.ink)


def _heads(mark: Tint, look: TintLook, lattice: Lattice) -> Iterator[Contour]:
    """A head at the middle of each edge, as deep in the cell whichever way it points."""
    side, length = lattice.side, look.size * lattice.side
    middle = lattice.centre(mark.cell)
    for name in SIDES.values():
        down, right = COMPASS[name]
        inward = (float(right), float(down))
        outer = along(middle, inward, -(0.5 - HEAD_INSET) * side)
        inner = along(outer, inward, length)
        tip, back = (inner, outer) if mark.shape == "inward" else (outer, inner)
        left, half = left_of(inward), HEAD_SPREAD * length / 2
        yield polyline([tip, along(back, left, half), along(back, left, -half)], closed=True)
