"""The formula: what a solver must satisfy, over `digit of cell` variables.

A formula only collects clauses; `verify.proof.solver` hands them to a SAT solver. Literals
that the pencil marks have settled never reach it: a clause with a true one is dropped, and
false ones are left out.
"""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from itertools import combinations
from typing import Final, TypeAlias, TypeVar

from verify.board import Cell
from verify.pencil import Mask, Pencil, digits_of
from verify.proof.scan import Layer, Scan, diagram, total_scan

Literal: TypeAlias = int

S = TypeVar("S", bound=Hashable)

GUARDS: Final = 256
"""Variables kept free behind the digits for the solver's own use."""

MOST_EXCLUDED: Final = 32
"""States of a scan's layer that are said to exclude each other, two by two."""


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

        Ways on and ways back are both said, and few states exclude each other, so that unit
        propagation finds what neither the cells before nor those behind leave. Measured: half
        the time of ways on alone.
        """
        layers = diagram(scan, self.pencil)
        nodes: dict[S, Literal] = {scan.start: self.true}
        for index, (cell, layer) in enumerate(zip(scan.cells, layers, strict=True)):
            if not layer:
                self.some(())
                return
            following = self._nodes(cell, layer, last=index == len(layers) - 1)
            self._ways_on(cell, layer, nodes, following)
            self._ways_back(cell, layer, nodes, following)
            nodes = following

    def _nodes(self, cell: Cell, layer: Layer[S], *, last: bool) -> dict[S, Literal]:
        """A literal for each state behind a cell: that the cells up to there have led to it."""
        states = dict.fromkeys(after for edges in layer.values() for after in edges.values())
        if last or len(states) == 1:
            return dict.fromkeys(states, self.true)
        if len(layer) == 1:
            return self._nodes_of_digits(cell, *layer.values())
        nodes = {state: self.fresh() for state in states}
        if len(nodes) <= MOST_EXCLUDED:
            for one, other in combinations(nodes.values(), 2):
                self.not_all(one, other)
        return nodes

    def _nodes_of_digits(self, cell: Cell, edges: Mapping[int, S]) -> dict[S, Literal]:
        """The same behind the first cell, where a state is often just that cell's digit."""
        digits: dict[S, list[int]] = {}
        for digit, state in edges.items():
            digits.setdefault(state, []).append(digit)
        return {
            state: self.literal(cell, of[0]) if len(of) == 1 else self.fresh()
            for state, of in digits.items()
        }

    def _ways_on(
        self, cell: Cell, layer: Layer[S], nodes: Mapping[S, Literal], after: Mapping[S, Literal]
    ) -> None:
        """A state and a digit lead to the next state, or to none."""
        digits = tuple(digits_of(self.pencil[cell]))
        for state, edges in layer.items():
            for digit in digits:
                to = after[edges[digit]] if digit in edges else -self.true
                placed = self.literal(cell, digit)
                if to != placed:
                    self.some((-nodes[state], -placed, to))

    def _ways_back(
        self, cell: Cell, layer: Layer[S], nodes: Mapping[S, Literal], after: Mapping[S, Literal]
    ) -> None:
        """A state came by one of its digits, and by each digit from one of the states before."""
        back: dict[S, dict[int, list[Literal]]] = {}
        for state, edges in layer.items():
            for digit, to in edges.items():
                back.setdefault(to, {}).setdefault(digit, []).append(nodes[state])
        for to, by_digit in back.items():
            node = after[to]
            placed = {digit: self.literal(cell, digit) for digit in by_digit}
            if node not in placed.values():
                self.implies(node, placed.values())
            for digit, before in by_digit.items():
                self.some((-node, -placed[digit], *before))

    def total(self, weights: Mapping[Cell, int], total: int) -> None:
        """The digits, each times its cell's weight, sum to `total`."""
        self.scan(total_scan(weights, total, self.pencil))
