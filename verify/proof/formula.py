"""The formula: what a solver must satisfy, over `digit of cell` variables.

A formula only collects clauses; `verify.proof.solver` hands them to a SAT solver. Literals
that the pencil marks have settled never reach it: a clause with a true one is dropped, and
false ones are left out.
"""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from typing import Final, TypeAlias, TypeVar

from verify.board import Cell
from verify.pencil import Mask, Pencil, digits_of
from verify.proof.scan import Layer, Scan, diagram, total_scan

Literal: TypeAlias = int

S = TypeVar("S", bound=Hashable)

GUARDS: Final = 256
"""Variables kept free behind the digits for the solver's own use."""


class Formula:
    """Clauses over the digits of cells and over fresh variables.

    Variable `cell * digits + digit` says that the cell holds the digit. `true` is a literal
    that always holds.
    """

    def __init__(self, digits: int, pencil: Pencil) -> None:
        self.digits = digits
        self.pencil = pencil
        self.clauses: list[list[Literal]] = []
        self.true: Literal = len(pencil) * digits + 1
        self._last = self.true + GUARDS

    def literal(self, cell: Cell, digit: int) -> Literal:
        """The literal for that digit in that cell; `true` or its negation where settled."""
        mask = self.pencil[cell]
        if not mask >> digit & 1:
            return -self.true
        return self.true if mask == 1 << digit else cell * self.digits + digit

    def fresh(self) -> Literal:
        """A new variable."""
        self._last += 1
        return self._last

    def some(self, literals: Iterable[Literal]) -> None:
        """At least one of the literals holds."""
        true = self.true
        clause = []
        for literal in literals:
            if literal == true:
                return
            if literal != -true:
                clause.append(literal)
        self.clauses.append(clause)

    def implies(self, literal: Literal, literals: Iterable[Literal]) -> None:
        """Where `literal` holds, at least one of the literals holds."""
        self.some((-literal, *literals))

    def not_all(self, *literals: Literal) -> None:
        """Not every one of the literals holds."""
        self.some([-literal for literal in literals])

    def distinct(self, cells: Sequence[Cell]) -> None:
        """No digit stands twice in the cells."""
        for index, one in enumerate(cells):
            for other in cells[index + 1 :]:
                for digit in digits_of(self.pencil[one] & self.pencil[other]):
                    self.not_all(self.literal(one, digit), self.literal(other, digit))

    def chosen(self, cell: Cell, digits: Mask) -> list[Literal]:
        """The literals that put one of these digits in the cell, for a clause."""
        return [self.literal(cell, digit) for digit in digits_of(digits & self.pencil[cell])]

    def scan(self, scan: Scan[S]) -> None:
        """The cells hold one of the scan's ways.

        Ways on and ways back are both said, so that unit propagation finds what neither the
        cells before nor those behind leave.
        """
        nodes: dict[S, Literal] = {scan.start: self.true}
        for cell, layer in zip(scan.cells, diagram(scan, self.pencil), strict=True):
            if not layer:
                self.some(())
                return
            nodes = self._layer(cell, layer, nodes)

    def _layer(self, cell: Cell, layer: Layer[S], nodes: dict[S, Literal]) -> dict[S, Literal]:
        """The clauses of one cell; returns the nodes behind it."""
        states = dict.fromkeys(after for edges in layer.values() for after in edges.values())
        following = (
            dict.fromkeys(states, self.true)
            if len(states) == 1
            else {state: self.fresh() for state in states}
        )
        back: dict[tuple[S, int], list[Literal]] = {}
        for state, edges in layer.items():
            for digit in digits_of(self.pencil[cell]):
                after = edges.get(digit)
                to = -self.true if after is None else following[after]
                self.some((-nodes[state], -self.literal(cell, digit), to))
                if after is not None:
                    back.setdefault((after, digit), []).append(nodes[state])
        into: dict[S, list[Literal]] = {}
        for (after, digit), before in back.items():
            placed = self.literal(cell, digit)
            self.some((-following[after], -placed, *before))
            into.setdefault(after, []).append(placed)
        for after, digits in into.items():
            self.implies(following[after], digits)
        return following

    def total(self, weights: Mapping[Cell, int], total: int) -> None:
        """The digits, each times its cell's weight, sum to `total`."""
        self.scan(total_scan(weights, total, self.pencil))
