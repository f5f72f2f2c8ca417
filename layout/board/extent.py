"""How large the picture of a board is for the cells that it has."""

from dataclasses import dataclass

from layout.style.board import Weight


@dataclass(frozen=True, slots=True)
class Extent:
    """A board's picture in cells: how many it is wide and deep, its room for clues counted in.

    The line around the board comes on top of that, half its width on each side.
    """

    across: float
    down: float
    frame: Weight

    def side(self, width: float) -> float:
        """The side of a cell in a picture that wide, in millimetres."""
        return self._side(self.across, width)

    def height(self, width: float) -> float:
        """How high a picture that wide is."""
        side = self.side(width)
        return self.down * side + self.frame.at(side)

    def within(self, width: float, height: float) -> float:
        """The width of the largest picture that is no wider and no higher."""
        side = self._side(self.down, height)
        return min(width, self.across * side + self.frame.at(side))

    def _side(self, cells: float, length: float) -> float:
        """The side where so many cells and the frame take a length."""
        # The frame's width depends on the cell's and the other way round: where it is a share
        # of the cell the equation has one answer, and within its bounds it is fixed.
        share = length / (cells + self.frame.of_cell)
        return (length - self.frame.at(share)) / cells
