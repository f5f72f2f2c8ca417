"""What a step puts around the digits of cells: squares, rings, numbers, and a bar."""

from collections.abc import Iterable, Iterator
from typing import Final

from layout.marks.label import ink_box
from layout.marks.lattice import Lattice
from layout.picture.items import Fill, Stroke, Text
from layout.picture.order import Layer, Painted
from layout.picture.shapes import disc, polyline, rectangle
from layout.style.board import StepLook
from layout.type.fonts import font
from verify.board import Cell

LABEL_CLEAR: Final = 0.03
"""White kept around a label that a square would cut, as a share of the cell."""

BAR_INSET: Final = 0.1
"""How far a bar keeps off the corners of its cell, as a share."""

DASH: Final = 0.09
"""The length of a dash of a broken ring, as a share of the cell."""

FOLLOWS: Final = 1.6
"""The diameter of the ring around a digit that follows from an "if", in heights of the digit."""


def boxed(
    cells: Iterable[Cell], labels: Iterable[Text], look: StepLook, lattice: Lattice
) -> Iterator[Painted]:
    """A square in each cell, around what follows; it leaves room for the labels in corners."""
    side, line = lattice.side, look.box.at(lattice.side)
    half = (look.box_size * side - line) / 2
    path = tuple(
        rectangle(x - half, y - half, 2 * half, 2 * half) for x, y in map(lattice.centre, cells)
    )
    if path:
        yield Layer.FRAME, Stroke(path, line)
        yield from _cleared(labels, side)


def ringed(
    cells: Iterable[Cell], labels: Iterable[Text], look: StepLook, lattice: Lattice
) -> Iterator[Painted]:
    """A ring in each cell, around what pushes; it leaves room for the labels in corners."""
    side, line = lattice.side, look.ring_line.at(lattice.side)
    radius = (look.ring * side - line) / 2
    path = tuple(disc(lattice.centre(cell), radius) for cell in cells)
    if path:
        yield Layer.FRAME, Stroke(path, line)
        yield from _cleared(labels, side)


def ringed_loosely(cells: Iterable[Cell], look: StepLook, lattice: Lattice) -> Iterator[Painted]:
    """A broken ring in each cell, around a digit that follows from an "if"."""
    radius, dash = FOLLOWS * look.follows / 2 * lattice.side, DASH * lattice.side
    path = tuple(disc(lattice.centre(cell), radius) for cell in cells)
    if path:
        yield Layer.FRAME, Stroke(path, look.edge.at(lattice.side), dash=(dash, 0.6 * dash))


def _cleared(labels: Iterable[Text], side: float) -> Iterator[Painted]:
    """White behind labels that a line would cut."""
    clear = LABEL_CLEAR * side
    for left, top, right, bottom in map(ink_box, labels):
        room = rectangle(
            left - clear, top - clear, right - left + 2 * clear, bottom - top + 2 * clear
        )
        yield Layer.FRAME, Fill((room,), 1.0)


def barred(cell: Cell, look: StepLook, lattice: Lattice) -> Painted:
    """A bar across a cell that no digit fits, behind what stands there.

    It rises to the right, clear of labels in the left corner and of numbers in the right one.
    """
    x, y = lattice.centre(cell)
    half = (0.5 - BAR_INSET) * lattice.side
    path = (polyline([(x - half, y + half), (x + half, y - half)]),)
    return Layer.SHAFT, Stroke(path, look.box.at(lattice.side), cap="round")


def numbered(number: int, cell: Cell, height: float, look: StepLook, lattice: Lattice) -> Painted:
    """A small number in the lower right corner; `height` is that of its figures, by cell."""
    words, face, side = str(number), font(look.mark), lattice.side
    size = height / face.digit_height * side
    _, bottom, right, _ = face.bounds(words)
    row, column = lattice.board.place(cell)
    x, y = lattice.corner(row + 1, column + 1)
    margin = look.margin * side
    x, y = x - margin - right * size, y - margin + bottom * size
    return Layer.PENCIL, Text(x, y, words, look.mark, size, face.advances(words))
