"""Helper digits: all digits printed small along the edges of an open cell, to be crossed out."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from layout.board.digits import halo, label_feet
from layout.marks.label import figure, widest
from layout.marks.lattice import Lattice
from layout.picture.cannot import CannotDraw
from layout.picture.items import Item, Point
from layout.picture.order import Layer, Painted
from layout.picture.shape_symbols import SHAPES, are_shapes
from layout.style.board import BoardStyle, DigitLook
from verify.board import Cell
from verify.marks import Badge, Cage
from verify.puzzle import Puzzle

MOST_DIGITS: Final = 9
"""More digits would leave no room to write."""

ROOM: Final = 0.4
"""The share of a cell's height that stays free between the rows of helper digits."""

SHAPE_SIZE: Final = 1.4
"""How large a small drawn shape is, by the height of a helper digit."""

APART: Final = 0.3
"""The least white between two of a row, as a share of the wider."""

IN_CAGE: Final = 0.045
"""How far inside the outline of a cage the digits stand, as a share of a cell."""

HALO: Final = 0.4
"""The width of the white line around a small digit, as a share of its height."""

EPSILON: Final = 1e-6

LABEL_GAP: Final = 0.03
"""White between a label in the corner of a cell and the row under it, as a share of the cell."""


class NoRoomForHelpers(CannotDraw):
    """Helper digits that would be too close to one another, or lie under another mark."""


@dataclass(frozen=True, slots=True)
class _HelperRows:
    """How the digits of a cell stand: their height and width, how many above, all in mm."""

    height: float
    width: float
    above: int
    inset: float
    side: float

    def middle(self, index: int, dropped: float) -> Point:
        """The middle of a digit, from 0, from the cell's upper left corner."""
        row, place = divmod(index, self.above)
        across = self.side - 2 * self.inset - self.width
        x = self.inset + self.width / 2 + (place * across / (self.above - 1) if place else 0.0)
        if row:
            return x, self.side - self.inset - self.height / 2
        return x, self.inset + self.height / 2 + dropped


def helper_digits(
    puzzle: Puzzle, style: BoardStyle, lattice: Lattice, painted: list[Painted]
) -> Iterator[Painted]:
    """Small digits in every open cell: half of them along its upper edge, the rest along the
    lower.

    Under a label in the corner the upper ones move down. Raises NoRoomForHelpers where cells
    are too small, or where discs on edges and corners would cover a digit.
    """
    if any(isinstance(mark, Badge) for mark in puzzle.marks()):
        raise NoRoomForHelpers("helper digits have no room beside discs on edges and corners")
    look, row = style.digits, _row(puzzle, style, lattice)
    feet = label_feet(painted, lattice)
    for cell in puzzle.board.cells:
        if not puzzle.givens[cell]:
            yield from _in_cell(puzzle, cell, row, look, lattice, feet)


def _row(puzzle: Puzzle, style: BoardStyle, lattice: Lattice) -> _HelperRows:
    """Raises NoRoomForHelpers where cells are too small."""
    look = style.digits
    digits, side = puzzle.board.digits, lattice.side
    if digits > MOST_DIGITS:
        message = f"helper digits are for at most {MOST_DIGITS} digits; this board has {digits}"
        raise NoRoomForHelpers(message)
    height, inset, above = (
        look.helper_height.at(side),
        _inset(puzzle, style) * side,
        (digits + 1) // 2,
    )
    widths = above + (above - 1) * APART
    if are_shapes(puzzle.symbols):
        height = width = min(SHAPE_SIZE * height, (side - 2 * inset) / widths)
    else:
        width = widest(puzzle.symbols, look.helper) * height
    across = 2 * inset + widths * width
    down = 2 * (inset + height) + ROOM * side
    if max(across, down) > side + EPSILON:
        message = (
            f"cells of {side:.1f} mm are too small for helper digits 1 to {digits} in this style; "
            "fewer puzzles to a page have larger cells"
        )
        raise NoRoomForHelpers(message)
    return _HelperRows(height, width, above, inset, side)


def _inset(puzzle: Puzzle, style: BoardStyle) -> float:
    """How far the digits stand from a cell's edges, as a share: inside the outlines of cages."""
    cages = [style.marks.cages[mark.role] for mark in puzzle.marks() if isinstance(mark, Cage)]
    return max([style.digits.helper_inset, *(cage.inset + IN_CAGE for cage in cages)])


def _in_cell(
    puzzle: Puzzle,
    cell: Cell,
    row: _HelperRows,
    look: DigitLook,
    lattice: Lattice,
    feet: Mapping[Cell, float],
) -> Iterator[Painted]:
    """The digits of one cell."""
    left, top = lattice.corner(*lattice.board.place(cell))
    dropped = (feet[cell] + LABEL_GAP) * row.side - row.inset if cell in feet else 0.0
    for index, symbol in enumerate(puzzle.symbols):
        x, y = row.middle(index, dropped)
        for item in _drawn(symbol, look, row.height, (left + x, top + y)):
            yield Layer.PENCIL, item


def _drawn(symbol: str, look: DigitLook, height: float, middle: Point) -> Iterator[Item]:
    """A symbol with white around it, for shapes may run behind it."""
    shape = SHAPES.get(symbol)
    if shape is not None:
        yield shape.halo(middle, height, HALO * height)
        yield from shape.open(middle, height)
    else:
        text = figure(symbol, look.helper, height, middle)
        yield halo(text, HALO * height)
        yield text
