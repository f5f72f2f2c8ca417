"""Digits that sum to a number outside: the constraint that edge sums and diagonal sums share."""

from collections.abc import Iterator
from dataclasses import dataclass

from verify.board import Cell, Outside
from verify.facets import Facets, summing
from verify.formula.formula import Formula
from verify.move import Move
from verify.pencil import Grid, Pencil, Strike, bit
from verify.rules.workings.outside_clues import strikes_but
from verify.rules.workings.sums import sum_survivors
from verify.rules.workings.totals import total_clauses


@dataclass(frozen=True, slots=True)
class OutsideSum:
    """The digits of the cells, as seen from outside, sum to `total`; they may repeat."""

    cells: tuple[Cell, ...]
    outside: Outside
    total: int

    def clauses(self, formula: Formula) -> None:
        """The cells sum to `total`."""
        total_clauses(formula, dict.fromkeys(self.cells, 1), self.total)

    def holds(self, grid: Grid) -> bool:
        """The cells sum to `total`."""
        return sum(grid[cell] for cell in self.cells) == self.total

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates in no choice of digits with the sum."""
        terms = [(cell, 1) for cell in self.cells]
        return strikes_but(sum_survivors(terms, pencil, bit(self.total)), self.cells, pencil)

    def moved(self, move: Move) -> "OutsideSum":
        """The cells moved, and the sum of what each digit becomes."""
        total = self.total
        if move.reverses:
            total = len(self.cells) * (move.before.digits + 1) - total
        return OutsideSum(move.all(self.cells), move.outside(self.outside), total)

    def facets(self, digits: int) -> Facets:
        """The sum."""
        return summing(self.cells, self.total)
