"""No digit twice among some cells: what rows, columns, boxes and the like have in common."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from verify.board import Cell
from verify.facets import Facets, Form, Group
from verify.formula.formula import Formula
from verify.move import Move
from verify.pencil import Grid, Pencil, Strike, is_single


@dataclass(frozen=True, slots=True)
class Distinct:
    """No digit stands twice in these cells; a house where there are as many as digits.

    `kind` is the word for it: row, column, box, region, diagonal ...
    """

    kind: str
    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """Every two cells differ."""
        formula.distinct(self.cells)

    def holds(self, grid: Grid) -> bool:
        """There are as many different digits as cells."""
        return len({grid[cell] for cell in self.cells}) == len(self.cells)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """A digit placed in one cell leaves the others."""
        return distinct_strikes(self.cells, pencil)

    def moved(self, move: Move) -> "Distinct":
        """The cells moved, in reading order; a row laid on its side is a column."""
        return Distinct(_kind_after(self.kind, move), tuple(sorted(move.all(self.cells))))

    def facets(self, digits: int) -> Facets:
        """One group; that is all."""
        return Facets((Group(self.kind, self.cells),), all_by=Form.APART)


def _kind_after(kind: str, move: Move) -> str:
    """What a row, a column or a diagonal is called after a turn."""
    pairs: dict[str, str] = {}
    if move.turn & 4:
        pairs |= {"row": "column", "column": "row"}
    if move.turn & 3 in (1, 2):
        pairs |= {"falling diagonal": "rising diagonal", "rising diagonal": "falling diagonal"}
    return pairs.get(kind, kind)


def distinct_strikes(cells: Iterable[Cell], pencil: Pencil) -> Iterator[Strike]:
    """What placed digits strike from cells that must differ from them."""
    cells = tuple(cells)
    for placed in cells:
        mask = pencil[placed]
        if is_single(mask):
            removes = tuple(
                (cell, mask) for cell in cells if cell != placed and pencil[cell] & mask
            )
            if removes:
                yield Strike(removes, (placed,))
