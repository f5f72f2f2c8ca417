"""The answers of a sketch: random ones, and whether some givens leave another."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from random import Random
from typing import Final

from verify.board import Cell
from verify.budget import BudgetSpent, Deadline
from verify.compose.sketch import Sketch
from verify.formula.formula import Literal
from verify.pencil import Grid, digits_of
from verify.proof.solver import Allowance, Base, Session
from verify.proof.verdict import formula_of
from verify.puzzle import Puzzle

FOR_AN_ANSWER: Final = 20_000
"""Conflicts of the solver for one answer."""

FOR_A_GIVEN: Final = 3_000
"""Conflicts for whether a given can be missing; where they don't suffice it stays."""


class Answers:
    """A solver that knows a sketch's rules, and no given but by what is supposed.

    `none` where propagation alone finds that there is no answer. Raises BudgetSpent where there
    are too many clauses.
    """

    def __init__(self, sketch: Sketch, deadline: Deadline) -> None:
        self._puzzle, self._deadline = sketch.puzzle, deadline
        self._cells = tuple(sketch.puzzle.board.cells)
        self._digits = sketch.puzzle.board.digits
        supposed = dict(sketch.reads)
        supposed |= {cell: digit for cell, digit in enumerate(sketch.puzzle.givens) if digit}
        self._supposed = [self._literal(cell, digit) for cell, digit in supposed.items()]
        session = _session(sketch.puzzle, deadline)
        self.none = session is None
        if session is not None:
            self._session, self._pencil = session

    def _literal(self, cell: Cell, digit: int) -> Literal:
        return cell * self._digits + digit

    def some(self) -> Grid | None:
        """An answer to the sketch; None where it has none. Raises BudgetSpent."""
        if self.none:
            return None
        return self._session.answer(Allowance(FOR_AN_ANSWER, self._deadline), self._supposed)

    def random(self, chance: Random) -> Grid:
        """An answer drawn by chance, of a sketch that has one: random digits in random cells.

        A digit that takes too long to try counts as one that can't be. Raises BudgetSpent after
        the deadline.
        """
        found = self.some()
        if found is None:
            raise BudgetSpent
        order = list(self._cells)
        chance.shuffle(order)
        supposed = list(self._supposed)
        for cell in order:
            digits = list(digits_of(self._pencil[cell]))
            chance.shuffle(digits)
            for digit in digits:
                if digit == found[cell]:
                    break
                other = self._try([*supposed, self._literal(cell, digit)])
                if other is not None:
                    found = other
                    break
            supposed.append(self._literal(cell, found[cell]))
        return found

    def _try(self, supposed: Sequence[Literal]) -> Grid | None:
        try:
            return self._session.answer(Allowance(FOR_A_GIVEN, self._deadline), supposed)
        except BudgetSpent:
            self._deadline.check()
            return None


class Others:
    """Whether some digits of one answer, as givens, leave any other. Raises BudgetSpent."""

    def __init__(self, sketch: Sketch, answer: Grid, deadline: Deadline) -> None:
        self._answer, self._deadline = answer, deadline
        self._digits = sketch.puzzle.board.digits
        self._cells = tuple(sketch.puzzle.board.cells)
        session = _session(sketch.puzzle, deadline)
        if session is None:
            raise BudgetSpent
        self._session, _ = session
        self._session.differ(answer, self._cells)

    def apart(self, givens: Iterable[Cell]) -> frozenset[Cell] | None:
        """The cells in which another answer differs; None where there is no other.

        No cells at all where that is undecided.
        """
        supposed = [cell * self._digits + self._answer[cell] for cell in sorted(givens)]
        try:
            other = self._session.answer(Allowance(FOR_A_GIVEN, self._deadline), supposed)
        except BudgetSpent:
            self._deadline.check()
            return frozenset()
        if other is None:
            return None
        return frozenset(cell for cell in self._cells if other[cell] != self._answer[cell])


def _session(puzzle: Puzzle, deadline: Deadline) -> tuple[Session, Sequence[int]] | None:
    """A solver of the sketch's own, so that what it finds hangs on nothing before; no givens.

    None where propagation finds that there is no answer.
    """
    bare = replace(puzzle, givens=(0,) * len(puzzle.givens), answer=None)
    houses = bare.houses()
    formula = formula_of(bare, houses, deadline)
    if formula is None:
        return None
    base = Base(puzzle.board.digits, houses, formula.pencil)
    return base.open(formula), formula.pencil
