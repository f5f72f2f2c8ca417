"""Cells that are smaller, or greater, than all around them: what both rules share."""

from collections.abc import Iterator
from dataclasses import dataclass

from verify.board import Cell
from verify.facets import Facets, Form
from verify.formula.formula import Formula
from verify.move import Move
from verify.pencil import Grid, Pencil, Strike, at_most, highest, lowest
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rules.workings.climbing import climb_clauses


@dataclass(frozen=True, slots=True)
class Extreme:
    """The first cell is smaller than each of the others, or greater where `least` is not set."""

    cells: tuple[Cell, ...]
    least: bool

    def clauses(self, formula: Formula) -> None:
        """A climb to, or from, each neighbour."""
        first, *others = self.cells
        for other in others:
            climb_clauses(formula, (first, other) if self.least else (other, first), 1)

    def holds(self, grid: Grid) -> bool:
        """Compare the digit with its neighbours'."""
        first, *others = (grid[cell] for cell in self.cells)
        return all(first < other if self.least else first > other for other in others)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits beyond what a neighbour can hold, and what the cell's own least one leaves."""
        first, *others = self.cells
        for other in others:
            low, high = (first, other) if self.least else (other, first)
            if not pencil[low] or not pencil[high]:
                continue
            for cell, kept, because in (
                (low, at_most(highest(pencil[high]) - 1), high),
                (high, ~at_most(lowest(pencil[low])), low),
            ):
                if pencil[cell] & ~kept:
                    yield Strike(((cell, pencil[cell] & ~kept),), (because,))

    def moved(self, move: Move) -> "Extreme":
        """The cells moved."""
        return Extreme(move.all(self.cells), self.least)

    def facets(self, digits: int) -> Facets:
        """From the first to each other one, or back; that is all."""
        first, *others = self.cells
        rises = ((first, other) if self.least else (other, first) for other in others)
        return Facets(rises=tuple(rises), all_by=Form.ORDER)


def read_extremes(node: Node, reader: Reader, least: bool) -> tuple[Extreme, ...]:
    """A group of cells, each with its edge neighbours that are not in the group."""
    board, marked = reader.board, reader.group(node) or ()
    found = []
    for cell in marked:
        beside = (board.step(cell, direction) for direction in ("n", "e", "s", "w"))
        others = tuple(other for other in beside if other is not None and other not in marked)
        found.append(Extreme((cell, *others), least))
    return tuple(found)
