"""Clues: a label outside the board, with a small arrow where it looks along a diagonal."""

from collections.abc import Iterator
from math import sqrt
from typing import Final

from layout.marks.label import centred
from layout.marks.lattice import Lattice
from layout.marks.outskirts import looks_askew, side_of
from layout.picture.items import Contour, Point, Stroke, Text
from layout.picture.order import Layer, Painted
from layout.picture.shapes import along, arrowhead, polyline
from layout.style.board import ClueLook
from layout.type.fonts import font
from verify.board import COMPASS, SIDES, Board
from verify.marks import Clue

CLEAR: Final = 0.05
"""White between an arrow and the board, and between it and its label, in cells."""

FREE: Final = 0.08
"""White before and behind a label that stands beside the board, in cells."""

BESIDE: Final = 0.26
"""How far the middle of a diagonal's label is from the line through its arrow's corner."""

POINTER: Final = 0.42
"""The length of an arrow that stands alone, in cells."""

HEAD_SHARE: Final = 0.45
"""The length of an arrow's head, as a share of the arrow."""


def draw(mark: Clue, look: ClueLook, lattice: Lattice) -> Iterator[Painted]:
    """The label in its strip; for a diagonal the arrow, and the label behind it."""
    if mark.arrow:
        yield Layer.CLUE, Stroke(tuple(_pointer(mark, look, lattice)), look.line.at(lattice.side))
        return
    if not looks_askew(mark.outside):
        yield Layer.CLUE, _straight(mark, look, lattice)
        return
    yield Layer.CLUE, Stroke(tuple(_arrow(mark, look, lattice)), look.line.at(lattice.side))
    yield Layer.CLUE, _askew(mark, look, lattice)


def tell(mark: Clue, board: Board) -> str:
    """The role, the label and the place, as an editor names it."""
    outside, side = mark.outside, side_of(mark.outside, board)
    upright = side in ("top", "bottom")
    line = f"c{outside.column + 1}" if upright else f"r{outside.row + 1}"
    ahead = f" {outside.direction}" if looks_askew(outside) else ""
    label = {"in": "arrow towards the grid", "out": "arrow away from the grid"}.get(mark.arrow)
    return f"{mark.role} {label or mark.label}: {side} {line}{ahead}"


def _pointer(mark: Clue, look: ClueLook, lattice: Lattice) -> Iterator[Contour]:
    """An arrow alone in the middle of its strip, towards the board or away from it."""
    stand, side = lattice.outskirts.stand(mark), lattice.side
    down, right = _inward(mark, lattice)
    off = lattice.frame / 2 + (stand.off + stand.depth / 2) * side
    ahead = (float(right), float(down))
    middle = along(_edge(mark, lattice), ahead, -off)
    if mark.arrow == "out":
        ahead = (-ahead[0], -ahead[1])
    length = POINTER * side
    tip = along(middle, ahead, length / 2)
    yield polyline([along(tip, ahead, -length), tip])
    yield arrowhead(tip, ahead, HEAD_SHARE * length)


def _straight(mark: Clue, look: ClueLook, lattice: Lattice) -> Text:
    """The label in the middle of its strip, on the middle line of its row or column."""
    stand, side = lattice.outskirts.stand(mark), lattice.side
    down, right = _inward(mark, lattice)
    off = lattice.frame / 2 + (stand.off + stand.depth / 2) * side
    middle = along(_edge(mark, lattice), (right, down), -off)
    deep = stand.depth - 2 * FREE
    wide, high = (deep, look.widest) if right else (look.widest, deep)
    size = _size(mark.label, look, wide, high, lattice)
    return centred(mark.label, look.label, size, middle)


def _arrow(mark: Clue, look: ClueLook, lattice: Lattice) -> Iterator[Contour]:
    """A shaft that points at the corner where the diagonal enters the board, and its head."""
    side, length = lattice.side, look.arrow * lattice.side
    ahead = _ahead(mark)
    tip = along(_corner(mark, lattice), ahead, -sqrt(2) * (lattice.frame / 2 + CLEAR * side))
    yield polyline([along(tip, ahead, -length), tip])
    yield arrowhead(tip, ahead, HEAD_SHARE * length)


def _askew(mark: Clue, look: ClueLook, lattice: Lattice) -> Text:
    """The label outside the arrow, in the half of the cell's side that the arrow is in.

    The other half is another diagonal's that may stand at the same place: both are set as small
    as two figures have to be. Alone it may take the whole width.
    """
    stand, side, face = lattice.outskirts.stand(mark), lattice.side, font(look.label)
    down, right = _inward(mark, lattice)
    # How far off the board the arrow ends and the label begins.
    arrow = 2 * CLEAR + look.arrow / sqrt(2)
    near, deep = lattice.frame / 2 + arrow * side, stand.depth - arrow
    half = 2 * (0.5 - BESIDE) - FREE
    room = (deep, half) if right else (look.widest if stand.alone else half, deep)
    widest = mark.label if stand.alone else max(mark.label, "00", key=len)
    size = _size(widest, look, *room, lattice)
    left, bottom, rightmost, top = face.bounds(mark.label)
    wide, high = (rightmost - left) * size, (top - bottom) * size
    off, spread = (near + wide / 2, high) if right else (near + high / 2, wide)
    beside = max(BESIDE * side, CLEAR * side + spread / 2)
    x, y = _corner(mark, lattice)
    ahead_down, ahead_right = COMPASS[mark.outside.direction]
    middle = (
        (x - right * off, y - ahead_down * beside)
        if right
        else (x - ahead_right * beside, y - down * off)
    )
    return centred(mark.label, look.label, size, middle)


def _size(words: str, look: ClueLook, wide: float, high: float, lattice: Lattice) -> float:
    """The size of a label no wider and no higher than its room, which is told in cells."""
    face, side = font(look.label), lattice.side
    left, bottom, right, top = face.bounds(words)
    largest = look.label_height.at(side) / face.digit_height
    return min(largest, wide * side / (right - left), high * side / (top - bottom))


def _inward(mark: Clue, lattice: Lattice) -> tuple[int, int]:
    """Rows down and columns right of a step straight onto the board."""
    return COMPASS[SIDES[side_of(mark.outside, lattice.board)]]


def _ahead(mark: Clue) -> Point:
    """The direction along a diagonal, of length 1."""
    down, right = COMPASS[mark.outside.direction]
    return right / sqrt(2), down / sqrt(2)


def _edge(mark: Clue, lattice: Lattice) -> Point:
    """The middle of the board's edge at the clue's place."""
    row, column = mark.outside.row, mark.outside.column
    down, right = _inward(mark, lattice)
    x, y = lattice.corner(row, column)
    half = lattice.side / 2
    return x + (1 + right) * half, y + (1 + down) * half


def _corner(mark: Clue, lattice: Lattice) -> Point:
    """The corner where the diagonal enters the board."""
    down, right = COMPASS[mark.outside.direction]
    return lattice.corner(mark.outside.row + (down > 0), mark.outside.column + (right > 0))
