"""A quick trial of every candidate by unit propagation, to know where an "if" is worth telling."""

from collections.abc import Sequence

from verify.board import Cell
from verify.pencil import Mask, digits_of
from verify.proof.formula import Formula, Literal
from verify.proof.solver import Base
from verify.walk.step import House, Link


class Trial:
    """The whole puzzle as clauses on the sheet's marks; what leaves the sheet later leaves here."""

    def __init__(
        self, digits: int, pencil: Sequence[Mask], houses: Sequence[House], links: Sequence[Link]
    ) -> None:
        self._known = list(pencil)
        self._formula = formula = Formula(digits, tuple(pencil))
        for link in links:
            link.constraint.clauses(formula)
        for house in houses:
            if not house.full:
                formula.distinct(house.cells)
        full = tuple(house.cells for house in houses if house.full)
        base = Base(digits, full, formula.pencil)
        self._session = base.open(formula)
        self._base = base

    def fails(self, cell: Cell, digit: int) -> bool:
        """Whether unit propagation alone refutes a candidate."""
        return not self._session.follows(self._literal(cell, digit))[0]

    def follows(self, cell: Cell, digit: int) -> frozenset[Literal] | None:
        """What follows from a candidate by unit propagation, as literals; None where it fails."""
        sound, literals = self._session.follows(self._literal(cell, digit))
        return frozenset(literals) if sound else None

    def catch_up(self, pencil: Sequence[Mask]) -> None:
        """Takes over what has left the sheet since."""
        for cell, mask in enumerate(pencil):
            gone = self._known[cell] & ~mask
            for digit in digits_of(gone):
                self._session.rule_out(self._literal(cell, digit))
            self._known[cell] = mask

    def _literal(self, cell: Cell, digit: int) -> Literal:
        return self._formula.literal(cell, digit)
