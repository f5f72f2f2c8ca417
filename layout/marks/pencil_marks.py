"""Pencil marks: every digit has its place in a cell, in rows from the upper left."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, sqrt
from typing import Final

from layout.marks.label import figure, ink_box, widest
from layout.marks.lattice import Lattice
from layout.picture.items import Contour, Stroke, Text
from layout.picture.shapes import polyline
from layout.style.board import StepLook
from verify.board import Cell
from verify.pencil import Mask, digits_of

ROW_SHARE: Final = 0.8
TIGHT_ROW_SHARE: Final = 0.86
"""The most that figures take of the height of a row, and of one under a label."""

COLUMN_SHARE: Final = 0.78
"""The most that a symbol takes of the width of its place."""

UNDER_LABEL: Final = 0.045
"""White between a label in a corner and the marks, as a share of the cell."""

BEYOND: Final = 0.08
"""How far a stroke runs beyond the ink that it strikes, in heights of a figure."""


@dataclass(frozen=True, slots=True)
class MarkPlaces:
    """Where marks stand in the cells of a board; lengths are shares of a cell's side.

    `feet` says how far down a label reaches in the cells that have one: marks start below it.
    """

    symbols: Sequence[str]
    columns: int
    rows: int
    margin: float
    height: float
    feet: Mapping[Cell, float]

    def middle(self, cell: Cell, digit: int) -> tuple[float, float]:
        """The middle of a digit's place, from the cell's upper left corner."""
        row, column = divmod(digit - 1, self.columns)
        top = self._top(cell)
        across, down = 1 - 2 * self.margin, 1 - self.margin - top
        x = self.margin + (column + 0.5) * across / self.columns
        return x, top + (row + 0.5) * down / self.rows

    def _top(self, cell: Cell) -> float:
        foot = self.feet.get(cell, 0.0)
        return max(self.margin, foot + UNDER_LABEL) if foot else self.margin

    def text(self, cell: Cell, digit: int, name: str, lattice: Lattice) -> Text:
        """A mark, set in a font."""
        symbol, side = self.symbols[digit - 1], lattice.side
        right, down = self.middle(cell, digit)
        left, top = lattice.corner(*lattice.board.place(cell))
        return figure(symbol, name, self.height * side, (left + right * side, top + down * side))


def mark_places(
    symbols: Sequence[str], look: StepLook, side: float, feet: Mapping[Cell, float]
) -> MarkPlaces:
    """The places of a board's marks, all set in one size, where cells have that side."""
    columns = ceil(sqrt(len(symbols)))
    rows = ceil(len(symbols) / columns)
    lowest = max(feet.values(), default=0.0)
    room = 1 - 2 * look.margin
    height = min(look.height.at(side) / side, ROW_SHARE * room / rows)
    if lowest:
        under = 1 - look.margin - lowest - UNDER_LABEL
        height = min(height, TIGHT_ROW_SHARE * under / rows)
    height = min(height, COLUMN_SHARE * room / columns / widest(symbols, look.strong))
    return MarkPlaces(symbols, columns, rows, look.margin, height, feet)


def least_side(symbols: Sequence[str], look: StepLook) -> float:
    """The least side of a cell in which all marks are as high as the look wants them at least."""
    return look.height.least / mark_places(symbols, look, 1.0, {}).height


def pencil_marks(
    places: MarkPlaces, cell: Cell, mask: Mask, strong: Mask, look: StepLook, lattice: Lattice
) -> Iterator[tuple[int, Text]]:
    """The marks of a cell, each with its digit; those that are `strong` in a heavier font."""
    for digit in digits_of(mask):
        name = look.strong if strong >> digit & 1 else look.mark
        yield digit, places.text(cell, digit, name, lattice)


def stroke_through(mark: Text, look: StepLook, side: float) -> Stroke:
    """A clean stroke through a mark, rising from its lower left."""
    return Stroke((_diagonal(mark),), look.stroke.at(side), cap="round")


def _diagonal(mark: Text) -> Contour:
    left, top, right, bottom = ink_box(mark)
    beyond = BEYOND * (bottom - top)
    middle, half = (left + right) / 2, max(right - left, 0.6 * (bottom - top)) / 2 + beyond
    return polyline([(middle - half, bottom + beyond), (middle + half, top - beyond)])
