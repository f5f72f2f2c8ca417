"""Where the cells of a board lie in its picture."""

from dataclasses import dataclass

from layout.marks.outskirts import NO_OUTSKIRTS, Outskirts
from layout.picture.items import Point
from verify.board import Board, Cell


@dataclass(frozen=True, slots=True)
class Lattice:
    """A board laid out: the side of a cell, and the upper left corner of the first, in mm.

    Cells are measured between the middles of the lines around them. `frame` is the width of the
    line around them all, `outskirts` what lies outside it.
    """

    board: Board
    side: float
    left: float
    top: float
    frame: float = 0.0
    outskirts: Outskirts = NO_OUTSKIRTS

    def centre(self, cell: Cell) -> Point:
        """The middle of a cell."""
        row, column = divmod(cell, self.board.columns)
        return self.left + (column + 0.5) * self.side, self.top + (row + 0.5) * self.side

    def corner(self, row: int, column: int) -> Point:
        """The crossing of lines at the upper left of that row and column."""
        return self.left + column * self.side, self.top + row * self.side

    def centres(self, cells: tuple[Cell, ...]) -> list[Point]:
        """The middles of cells."""
        return [self.centre(cell) for cell in cells]
