"""The formula: what a solver must satisfy, over `digit of cell` variables.

A formula only collects clauses; `verify.proof.solver` hands them to a SAT solver. Literals
that the pencil marks have settled never reach it: a clause with a true one is dropped, and
false ones are left out.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Final, TypeAlias

from verify.board import Cell
from verify.pencil import Pencil, digits_of

Literal: TypeAlias = int

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

    def total(self, weights: Mapping[Cell, int], total: int) -> None:
        """The digits, each times its cell's weight, sum to `total`.

        A decision diagram, cell by cell, whose nodes are the sums so far that can still
        reach the total: at most cells x sums nodes and digits clauses a node.
        """
        diagram(self, list(weights.items()), total)


def diagram(formula: Formula, terms: Sequence[tuple[Cell, int]], total: int) -> None:
    """Adds `Formula.total` as a layered decision diagram."""
    layers = _layers(formula.pencil, terms, total)
    nodes: dict[int, Literal] = {0: formula.true}
    for (cell, weight), reachable in zip(terms, layers, strict=True):
        fresh = _memo(formula.fresh)
        following = {value: fresh(value) for value in sorted(reachable)}
        for value, node in nodes.items():
            for digit in digits_of(formula.pencil[cell]):
                after = following.get(value + weight * digit, -formula.true)
                formula.some((-node, -formula.literal(cell, digit), after))
        nodes = following
    for value, node in nodes.items():
        if value != total:
            formula.some((-node,))
    if total not in nodes:
        formula.some(())


def _memo(fresh: Callable[[], Literal]) -> Callable[[int], Literal]:
    """A fresh variable for each new value."""
    known: dict[int, Literal] = {}

    def of(value: int) -> Literal:
        if value not in known:
            known[value] = fresh()
        return known[value]

    return of


def _layers(
    pencil: Pencil, terms: Sequence[tuple[Cell, int]], total: int
) -> Iterator[frozenset[int]]:
    """For each term, the sums after it that start at 0 and can still reach the total."""
    back = [frozenset({total})]
    for cell, weight in reversed(terms[1:]):
        back.append(frozenset(s - weight * d for s in back[-1] for d in digits_of(pencil[cell])))
    sums = frozenset({0})
    for (cell, weight), useful in zip(terms, reversed(back), strict=True):
        sums = frozenset(s + weight * d for s in sums for d in digits_of(pencil[cell])) & useful
        yield sums
