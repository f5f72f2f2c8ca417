"""The formula: what a solver must satisfy, over `digit of cell` variables.

A formula only collects clauses; `verify.proof.solver` hands them to a SAT solver. Literals
that the pencil marks have settled never reach it: a clause with a true one is dropped, and
false ones are left out.
"""

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from functools import lru_cache
from itertools import combinations, pairwise
from typing import Final, TypeAlias, TypeVar, TypeVarTuple

from verify.board import Cell
from verify.budget import MOST_LITERALS, NEVER, BudgetSpent, Deadline
from verify.formula.scan import Diagram, Edge, Scan, diagram, diagram_to_ends, live
from verify.pencil import Mask, Pencil, digits_of, is_single, lowest

Literal: TypeAlias = int

S = TypeVar("S", bound=Hashable)
Ts = TypeVarTuple("Ts")

GUARDS: Final = 256
"""Variables kept free behind the digits for the solver's own use."""

BETWEEN_LOOKS: Final = 1_000
"""Literals that are added between two looks at the clock."""

MOST_EXCLUDED: Final = 32
"""States of a scan's layer that are said to exclude each other, two by two."""


class Formula:
    """Clauses over the digits of cells and over fresh variables.

    Variable `cell * digits + digit` says that the cell holds the digit. `true` is a literal
    that always holds. `counts` are literals of which just so many hold, beside the clauses; there
    are some only where `native` says that the solver will take them. Whatever adds clauses raises
    BudgetSpent after the deadline, or where there are too many of them.
    """

    native = False

    def __init__(self, digits: int, pencil: Pencil, deadline: Deadline = NEVER) -> None:
        self.digits = digits
        self.pencil = pencil
        self.deadline = deadline
        self.clauses: list[Sequence[Literal]] = []
        self.counts: list[tuple[list[Literal], int]] = []
        self._at_least: dict[Cell, list[Literal]] = {}
        self._literals = 0
        self._next_look = 0
        self.true: Literal = len(pencil) * digits + 1
        self._last = self.true + GUARDS

    def literal(self, cell: Cell, digit: int) -> Literal:
        """The literal for that digit in that cell; `true` or its negation where settled."""
        mask = self.pencil[cell]
        if not mask >> digit & 1:
            return -self.true
        return self.true if mask == 1 << digit else cell * self.digits + digit

    def apart(self, cells: Sequence[Cell]) -> bool:
        """Whether no digit stands twice in the cells, as is known besides what is said here."""
        return False

    def stamp(
        self,
        shape: Callable[["Formula", tuple[Cell, ...], *Ts], None],
        cells: tuple[Cell, ...],
        *numbers: *Ts,
    ) -> None:
        """Adds what `shape` says of the cells; see `verify.formula.stamped`.

        `shape` is a function of a module. What it says depends on nothing but the formula, on
        cells, which are all different, and on `numbers`, which can be told apart by ==.
        """
        shape(self, cells, *numbers)

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
        self._count(len(clause))

    def _count(self, literals: int) -> None:
        """Counts what was added, and looks at the clock from time to time."""
        self._literals += literals
        if self._literals >= self._next_look:
            self._next_look = self._literals + BETWEEN_LOOKS
            self.deadline.check()
            if self._literals > MOST_LITERALS:
                raise BudgetSpent

    def implies(self, literal: Literal, literals: Iterable[Literal]) -> None:
        """Where `literal` holds, at least one of the literals holds."""
        self.some((-literal, *literals))

    def not_all(self, *literals: Literal) -> None:
        """Not every one of the literals holds."""
        self.some(-literal for literal in literals)

    def distinct(self, cells: Sequence[Cell]) -> None:
        """No digit stands twice in the cells."""
        for index, one in enumerate(cells):
            for other in cells[index + 1 :]:
                self.differ(one, other)

    def differ(self, one: Cell, other: Cell) -> None:
        """Two cells hold different digits."""
        here, there = self.pencil[one], self.pencil[other]
        if is_single(here) or is_single(there):
            for digit in digits_of(here & there):
                self.not_all(self.literal(one, digit), self.literal(other, digit))
            return
        clauses = _differing(one * self.digits, other * self.digits, here & there)
        self.clauses += clauses
        self._count(2 * len(clauses))

    def chosen(self, cell: Cell, digits: Mask) -> list[Literal]:
        """The literals that put one of these digits in the cell, for a clause."""
        return [self.literal(cell, digit) for digit in digits_of(digits & self.pencil[cell])]

    def exactly(self, count: int, literals: list[Literal]) -> None:
        """Just so many of the literals hold, as the solver's own constraint: see `native`."""
        self.counts.append((literals, count))
        self._count(len(literals))

    def at_least(self, cell: Cell) -> Sequence[Literal]:
        """For each digit from 2 up, the literal that the cell holds it or a larger one."""
        if cell not in self._at_least:
            self._at_least[cell] = self._order(cell)
        return self._at_least[cell]

    def _order(self, cell: Cell) -> list[Literal]:
        placed = [self.literal(cell, digit) for digit in range(1, self.digits + 1)]
        mask = self.pencil[cell]
        if is_single(mask):
            reached = mask.bit_length() - 1
            return [self.true if at <= reached else -self.true for at in range(2, self.digits + 1)]
        if len(placed) < 3:
            return placed[1:]
        # The least and the largest digit are said by themselves.
        order = [-placed[0], *(self.fresh() for _ in placed[2:-1]), placed[-1]]
        for digit, (lower, higher) in zip(placed[1:-1], pairwise(order), strict=True):
            self.implies(higher, [lower])
            self.implies(digit, [lower])
            self.not_all(digit, higher)
            self.some((digit, -lower, higher))
        return order

    def scan(self, scan: Scan[S], where: Literal | None = None) -> None:
        """The cells hold one of the scan's ways; with `where`, they do where it holds."""
        self._follow(diagram(scan, self.pencil, self.deadline), scan.cells, where=where)

    def ways(self, ways: Diagram, cells: Sequence[Cell]) -> None:
        """The cells hold one of the diagram's ways.

        Ways on and ways back are both said, and few states exclude each other, so that unit
        propagation finds what neither the cells before nor those behind leave. Measured: half
        the time of ways on alone.
        """
        self._follow(live(ways, cells, self.pencil), cells)

    def outcomes(self, scan: Scan[S]) -> dict[S, Literal]:
        """A literal for each state in which the cells can end; nothing where there is none.

        The cells hold one of the scan's ways, and the literal of its end holds.
        """
        ways, ends = diagram_to_ends(scan, self.pencil, self.deadline)
        nodes = self._follow(ways, scan.cells, apart=True)
        return {ends[number]: node for number, node in nodes.items()}

    def _follow(
        self,
        layers: Diagram,
        cells: Sequence[Cell],
        *,
        where: Literal | None = None,
        apart: bool = False,
    ) -> dict[int, Literal]:
        """The clauses of a live diagram; its ends are told `apart` or are all the same."""
        asked = self.true if where is None else where
        nodes = {0: asked}
        for index, (cell, layer) in enumerate(zip(cells, layers, strict=True)):
            if not layer:
                self.not_all(asked)
                return {}
            if index == len(layers) - 1 and not apart:
                following = dict.fromkeys((after for _, after, _ in layer), asked)
            else:
                following = self._nodes(cell, layer, asked)
            self._ways_on(cell, layer, nodes, following)
            self._ways_back(cell, layer, nodes, following)
            nodes = following
        return nodes

    def _nodes(self, cell: Cell, layer: Sequence[Edge], asked: Literal) -> dict[int, Literal]:
        """A literal for each state behind a cell: that the cells up to there have led to it."""
        states = dict.fromkeys(after for _, after, _ in layer)
        if len(states) == 1:
            return dict.fromkeys(states, asked)
        if asked == self.true and len({before for before, _, _ in layer}) == 1:
            # Behind the first cell a state is often just that cell's digit.
            return {
                after: self.literal(cell, lowest(digits)) if is_single(digits) else self.fresh()
                for _, after, digits in layer
            }
        nodes = {state: self.fresh() for state in states}
        if len(nodes) <= MOST_EXCLUDED:
            for one, other in combinations(nodes.values(), 2):
                self.not_all(one, other)
        return nodes

    def _ways_on(
        self,
        cell: Cell,
        layer: Sequence[Edge],
        nodes: Mapping[int, Literal],
        after: Mapping[int, Literal],
    ) -> None:
        """A state and a digit lead to the next state, or to none."""
        led: dict[int, Mask] = {}
        for before, state, digits in layer:
            led[before] = led.get(before, 0) | digits
            for digit in digits_of(digits):
                placed = self.literal(cell, digit)
                if after[state] != placed:
                    self.some((-nodes[before], -placed, after[state]))
        for before, digits in led.items():
            for digit in digits_of(self.pencil[cell] & ~digits):
                self.not_all(nodes[before], self.literal(cell, digit))

    def _ways_back(
        self,
        cell: Cell,
        layer: Sequence[Edge],
        nodes: Mapping[int, Literal],
        after: Mapping[int, Literal],
    ) -> None:
        """A state came by one of its digits, and by each digit from one of the states before."""
        back: dict[Literal, dict[int, list[Literal]]] = {}
        for before, state, digits in layer:
            for digit in digits_of(digits):
                # Several states share a node where they need not be told apart any more.
                back.setdefault(after[state], {}).setdefault(digit, []).append(nodes[before])
        for node, by_digit in back.items():
            placed = {digit: self.literal(cell, digit) for digit in by_digit}
            if node not in placed.values():
                self.implies(node, placed.values())
            for digit, befores in by_digit.items():
                self.some((-node, -placed[digit], *befores))


@lru_cache(maxsize=4096)
def _differing(one: Literal, other: Literal, digits: Mask) -> Sequence[Sequence[Literal]]:
    """That two cells hold different digits, by the variables before their first ones."""
    return [(-one - digit, -other - digit) for digit in digits_of(digits)]
