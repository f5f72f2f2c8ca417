"""The numbers of rows and columns beside a puzzle, small and grey, where the style wants them."""

from collections.abc import Iterator
from typing import Final

from layout.board.board import lay_out
from layout.pages.common.design import Design, cap
from layout.picture.items import Item
from layout.type.face import Face
from layout.type.paragraph import one_line
from verify.puzzle import Puzzle

OFF: Final = 0.45
"""White between the numbers and the frame, in ems."""

GREY: Final = 0.45
"""How far they are from black."""


def coordinates(puzzle: Puzzle, x: float, y: float, width: float, design: Design) -> Iterator[Item]:
    """The numbers above and left of a board that is `width` wide, its upper left corner at x, y.

    They hang outside of the room that the board takes. Boards with clues outside have none, for
    they could be taken for clues.
    """
    lattice = lay_out(puzzle, design.board, width)
    if not design.page.coordinates or lattice.outskirts.across or lattice.outskirts.down:
        return
    face = coordinate_face(design)
    off = lattice.frame / 2 + OFF * face.size
    for column in range(puzzle.board.columns):
        line = one_line(str(column + 1), face)
        middle = x + lattice.left + (column + 0.5) * lattice.side
        yield from line.at(middle - line.width / 2, y + lattice.top - off, GREY)
    for row in range(puzzle.board.rows):
        line = one_line(str(row + 1), face)
        middle = y + lattice.top + (row + 0.5) * lattice.side
        yield from line.at(x + lattice.left - off - line.width, middle + cap(face) / 2, GREY)


def coordinate_face(design: Design) -> Face:
    """The face of the numbers: that of small captions, as small as the style lets letters be."""
    face = design.faces.caption_number
    return face.scaled(min(design.page.least / face.size, 1.0))


def coordinate_depth(design: Design) -> float:
    """What the numbers take above a board."""
    face = coordinate_face(design)
    return cap(face) + OFF * face.size if design.page.coordinates else 0.0
