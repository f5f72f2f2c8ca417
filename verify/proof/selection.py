"""One formula in which every part of a manifest can be switched on and off.

A given is the literal of its digit. A mark has a literal of its own, and its clauses hold where
that does. The grid itself always holds.
"""

from collections.abc import Iterable, Sequence

from verify.board import Cell
from verify.budget import Deadline
from verify.formula.formula import Formula, Literal
from verify.pencil import ABSENT, Pencil, every_digit
from verify.proof.parts import GivenPart, MarkPart, Part, ground_of, parts_of
from verify.proof.solver import Allowance, Base
from verify.puzzle import Puzzle
from verify.rule import Constraint
from verify.rules.workings.distinct import Distinct


class Selection:
    """Tells which parts can't stand together. Raises BudgetSpent where there is too much."""

    def __init__(self, puzzle: Puzzle, deadline: Deadline) -> None:
        self.parts = parts_of(puzzle)
        board = puzzle.board
        formula = Formula(board.digits, _open_pencil(puzzle), deadline)
        houses = tuple(dict.fromkeys(_houses(ground_of(puzzle), board.digits)))
        for constraint in ground_of(puzzle):
            if constraint.cells not in houses:
                constraint.clauses(formula)
        self._formula = formula
        self._literal = {part: _switch(part, formula) for part in self.parts}
        self._part = {literal: part for part, literal in self._literal.items()}
        self._other = formula.fresh()
        self._session = Base(board.digits, houses, formula.pencil).open(formula)

    def clash(self, parts: Iterable[Part], allowance: Allowance) -> tuple[Part, ...] | None:
        """Some of the parts, in their order, that can't stand together; None where all can.

        Raises BudgetSpent.
        """
        return self._clash(parts, (), allowance)

    def add(self, part: MarkPart) -> None:
        """A mark that the manifest does not have, to be switched on like the others.

        Raises BudgetSpent.
        """
        if part not in self._literal:
            start = len(self._formula.clauses)
            literal = _switch(part, self._formula)
            self._session.add(self._formula, start)
            self._literal[part], self._part[literal] = literal, part

    @property
    def conflicts(self) -> int:
        """Conflicts of the solver so far."""
        return self._session.conflicts

    def rule_out(self, answer: Sequence[int], cells: Sequence[Cell]) -> None:
        """From now on `other_clash` asks for an answer that differs in one of the cells."""
        self._session.differ(answer, cells, where=self._other)

    def other_clash(self, parts: Iterable[Part], allowance: Allowance) -> tuple[Part, ...] | None:
        """Some of the parts that leave no other answer; None where all together leave one.

        Raises BudgetSpent.
        """
        return self._clash(parts, (self._other,), allowance)

    def _clash(
        self, parts: Iterable[Part], more: tuple[Literal, ...], allowance: Allowance
    ) -> tuple[Part, ...] | None:
        supposed = [*more, *(self._literal[part] for part in parts)]
        core = self._session.clash(supposed, allowance)
        if core is None:
            return None
        return tuple(self._part[each] for each in supposed if each in core and each not in more)


def _open_pencil(puzzle: Puzzle) -> Pencil:
    """Every digit in every cell: givens are parts, which may be left out."""
    everything, absent = every_digit(puzzle.board.digits), puzzle.board.absent
    return [ABSENT if place in absent else everything for place in puzzle.board.places]


def _houses(constraints: Iterable[Constraint], digits: int) -> Iterable[tuple[Cell, ...]]:
    for constraint in constraints:
        if isinstance(constraint, Distinct) and len(constraint.cells) == digits:
            yield constraint.cells


def _switch(part: Part, formula: Formula) -> Literal:
    """The literal of a part, its clauses added; they hold where the literal does."""
    if isinstance(part, GivenPart):
        return part.cell * formula.digits + part.digit
    switch = formula.fresh()
    start = len(formula.clauses)
    for constraint in part.constraints:
        constraint.clauses(formula)
    for cells in _houses(part.constraints, formula.digits):
        for digit in range(1, formula.digits + 1):
            formula.some(formula.literal(cell, digit) for cell in cells)
    formula.clauses[start:] = [(*clause, -switch) for clause in formula.clauses[start:]]
    return switch
