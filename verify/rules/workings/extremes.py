"""Cells that are smaller, or greater, than all around them: what both rules share."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Literal

from verify.board import Cell
from verify.facets import Facets, Form
from verify.formula.formula import Formula
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, at_most, highest, lowest
from verify.reading.grammar import GROUP, Cells, Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.climbing import climb_clauses
from verify.rules.workings.parts import one_sentence, tinted


@dataclass(frozen=True, slots=True)
class Extreme:
    """The first cell is smaller than each of the others, or greater where `is_least` is not set."""

    cells: tuple[Cell, ...]
    is_least: bool

    def clauses(self, formula: Formula) -> None:
        """Digits climb from the first cell to each other one, or from that to the first."""
        first, *others = self.cells
        for other in others:
            climb_clauses(formula, (first, other) if self.is_least else (other, first), 1)

    def holds(self, grid: Grid) -> bool:
        """The first digit is smaller than every other one, or greater than every other one."""
        first, *others = (grid[cell] for cell in self.cells)
        return all(first < other if self.is_least else first > other for other in others)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates too large, or too small, for all that is left in the other cell."""
        first, *others = self.cells
        for other in others:
            low, high = (first, other) if self.is_least else (other, first)
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
        return Extreme(move.all(self.cells), self.is_least)

    def facets(self, digits: int) -> Facets:
        """What is smaller and what is greater, of each two cells; the mark says nothing else."""
        first, *others = self.cells
        rises = ((first, other) if self.is_least else (other, first) for other in others)
        return Facets(rises=tuple(rises), all_by=Form.ORDER)


def extreme_rule(
    *, name: str, meaning: str, is_least: bool, heads: Literal["inward", "outward"], example: str
) -> Rule[Cells, Extreme]:
    """A rule whose marked cells are smaller, or greater, than all around them.

    `heads` says where the small heads at the four edges of each marked cell point to.
    """
    return Rule(
        name=name,
        meaning=meaning,
        marks="a group of cells",
        grammar=GROUP,
        make=partial(_each_cell, is_least),
        draw=partial(tinted, name, heads),
        says=partial(one_sentence, name),
        survives=frozenset({Disguise.TURN}),
        example=example,
    )


def _each_cell(is_least: bool, cells: Placed[Cells], reader: Reader) -> tuple[Extreme, ...]:
    """Each cell with its edge neighbours that are not marked."""
    board, marked, found = reader.board, cells.value, []
    for cell in marked:
        beside = (board.step(cell, direction) for direction in ("n", "e", "s", "w"))
        others = tuple(other for other in beside if other is not None and other not in marked)
        found.append(Extreme((cell, *others), is_least))
    return tuple(found)
