"""The verdict on a puzzle: no answer, one, many, or undecided within the budget."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from time import monotonic
from typing import Final, Literal, TypeAlias

from verify.board import Cell
from verify.budget import NEVER, USUAL, Budget, BudgetSpent, Deadline
from verify.formula.formula import Formula
from verify.formula.stamped import StampedFormula
from verify.pencil import Pencil, is_single
from verify.proof.propagate import penciled, propagate
from verify.proof.solver import (
    Allowance,
    Base,
    Everywhere,
    Houses,
    Session,
    alone,
    forget,
    outlasting,
    shared_base,
)
from verify.puzzle import Puzzle
from verify.rule import Constraint
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.parts import nothing_drawn

Word: TypeAlias = Literal["one", "many", "none", "undecided"]
Answer: TypeAlias = tuple[int, ...]

QUICK_CONFLICTS: Final = 10_000
"""Conflicts allowed on the shared base; what needs more gets a solver of its own.

Only a short run may lean on what other puzzles have taught the base: a long one would end
differently from run to run.
"""


@dataclass(frozen=True, slots=True)
class Shared:
    """What a puzzle may have, at most, that is sooner decided on the shared base.

    `clauses` are those of its marks. `still_open` is the share of all digits of cells that
    propagation leaves open, for puzzles without marks: what leaves more is mostly hard, and then it
    helps to know the givens for good.
    """

    clauses: int
    still_open: float


BESIDE_HOUSES: Final = Shared(500, 0.27)
"""Measured: a solver of a puzzle's own takes a third of a millisecond to make."""

BESIDE_MORE: Final = Shared(2_000, 0.4)
"""The same where the base knows what rules say of the whole board: a solver of the puzzle's own
would have to be told all that anew."""


MOST_OPEN: Final = 1_000
"""Digits of cells that propagation may leave open on a large board, for the same reason."""


class ProofFault(Exception):  # noqa: N818 - an inconsistency in this program, not in a puzzle
    """Clauses and plain check disagree about an answer: nothing may be said of the puzzle."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What is known of a puzzle's answers.

    `answers` holds the one answer, or two of many. `differs` lists the cells that are not
    the same in every answer, `differs_all` says whether these are all: the budget may have run
    out before that was decided. `contradicts` lists the cells where the constructor's answer is
    not the proved one.
    """

    word: Word
    answers: tuple[Answer, ...] = ()
    differs: tuple[Cell, ...] = ()
    differs_all: bool = True
    contradicts: tuple[Cell, ...] = ()
    seconds: float = 0.0

    @property
    def printable(self) -> bool:
        """Whether the puzzle may be printed: one answer, and the constructor's own if told."""
        return self.word == "one" and not self.contradicts


def prove(
    puzzle: Puzzle, budget: Budget | None = None, deadline: Deadline | None = None
) -> Verdict:
    """The verdict on a puzzle; every answer in it has passed the rules' plain check.

    The budget's seconds count from now, unless a deadline is given. Raises ProofFault where an
    answer does not pass: a defect of this program.
    """
    started, budget = monotonic(), budget or USUAL
    word, answers, differs, differs_all = _decide(
        puzzle, budget.conflicts, deadline or budget.deadline()
    )
    for answer in answers:
        check_answer(puzzle, answer)
    contradicts: tuple[Cell, ...] = ()
    if word == "one" and puzzle.answer is not None:
        contradicts = different(puzzle.answer, answers[0])
    return Verdict(word, answers, differs, differs_all, contradicts, monotonic() - started)


_Decision: TypeAlias = tuple[Word, tuple[Answer, ...], tuple[Cell, ...], bool]


def _decide(puzzle: Puzzle, conflicts: int, deadline: Deadline) -> _Decision:
    is_long = False
    try:
        # With less than a short search takes, what was learned before would decide what comes out.
        if conflicts >= QUICK_CONFLICTS:
            deadline.check()
            answers = first_answers(puzzle, Allowance(QUICK_CONFLICTS, deadline))
            if len(answers) < 2:
                return ("one", answers, (), True) if answers else ("none", (), (), True)
    except BudgetSpent:
        is_long = True
    try:
        return _decide_alone(puzzle, Allowance(conflicts, deadline), is_long)
    except BudgetSpent:
        return "undecided", (), (), True


def first_answers(puzzle: Puzzle, allowance: Allowance) -> tuple[Answer, ...]:
    """Up to two answers; one or none are all there are. Raises BudgetSpent.

    Quick, where it can be on the base shared by all puzzles with the same houses. Which two of many
    answers are found depends on the puzzles before.
    """
    board, houses = puzzle.board, puzzle.houses()
    everywhere, marks = _beside_houses(puzzle, houses)
    formula = StampedFormula(
        board.digits, penciled(puzzle), allowance.deadline, houses, native=True
    )
    _say(formula, marks)
    most = BESIDE_MORE if everywhere else BESIDE_HOUSES
    is_short = len(formula.clauses) <= most.clauses and not formula.counts
    if is_short and (base := shared_base(board, houses, everywhere)):
        answers = _shared_answers(base, formula, most, allowance)
        if answers is not None:
            return answers
    _say(formula, everywhere)
    session = alone(formula, houses)
    session.digits_first()
    try:
        return _two_answers(session, formula.pencil, allowance)
    finally:
        session.close()


def _shared_answers(
    base: Base, formula: Formula, most: Shared, allowance: Allowance
) -> tuple[Answer, ...] | None:
    """The same on a shared base; None where a solver of the puzzle's own is quicker."""
    try:
        session = base.open(formula)
        try:
            forced, still_open = session.forced()
            if forced is not None:
                return (forced,)
            most_open = min(MOST_OPEN, most.still_open * base.width)
            if not formula.clauses and still_open > most_open:
                return None
            return _two_answers(session, formula.pencil, allowance)
        finally:
            session.close()
    finally:
        if base.spent:
            forget()


def _two_answers(session: Session, pencil: Pencil, allowance: Allowance) -> tuple[Answer, ...]:
    first = session.answer(allowance)
    if first is None:
        return ()
    session.differ(first, [cell for cell, mask in enumerate(pencil) if not is_single(mask)])
    second = session.answer(allowance)
    return (first,) if second is None else (first, second)


def formula_of(puzzle: Puzzle, houses: Houses, deadline: Deadline = NEVER) -> Formula | None:
    """All that the houses do not say, or None where propagation finds no answer."""
    pencil = penciled(puzzle)
    if not propagate(list(puzzle.constraints()), pencil, deadline):
        return None
    formula = StampedFormula(puzzle.board.digits, pencil, deadline, houses)
    for constraints in _beside_houses(puzzle, houses):
        _say(formula, constraints)
    return formula


def _beside_houses(puzzle: Puzzle, houses: Houses) -> tuple[Everywhere, tuple[Constraint, ...]]:
    """What rules say of the whole board, drawn nowhere, and what their marks say; no houses."""
    known, everywhere, marks = set(houses), list[Constraint](), list[Constraint]()
    for use in puzzle.uses:
        room = everywhere if use.rule.draw is nothing_drawn else marks
        for constraint in use.constraints:
            if not (isinstance(constraint, Distinct) and constraint.cells in known):
                room.append(constraint)
    return tuple(everywhere), tuple(marks)


def _say(formula: Formula, constraints: Iterable[Constraint]) -> None:
    """Adds what some constraints say. Raises BudgetSpent."""
    for constraint in constraints:
        formula.deadline.check()
        constraint.clauses(formula)


def _decide_alone(puzzle: Puzzle, allowance: Allowance, is_long: bool) -> _Decision:
    """The same on a solver of the puzzle's own, so that the outcome depends on nothing else.

    It is another one where the search `is_long`.
    """
    houses = puzzle.houses()
    formula = formula_of(puzzle, houses, allowance.deadline)
    if formula is None:
        return "none", (), (), True
    session = (outlasting(formula, houses) if is_long else None) or alone(formula, houses)
    answers = _two_answers(session, formula.pencil, allowance)
    if len(answers) < 2:
        return ("one", answers, (), True) if answers else ("none", (), (), True)
    two = answers[0], answers[1]
    return "many", answers, *_every_difference(session, two, allowance)


def _every_difference(
    session: Session, two: tuple[Answer, Answer], allowance: Allowance
) -> tuple[tuple[Cell, ...], bool]:
    """The cells that differ between any two answers, and whether these are all.

    They are found by asking for ever new differences.
    """
    (first, second), whole = two, True
    same = [cell for cell, digit in enumerate(first) if digit and digit == second[cell]]
    try:
        while same:
            session.differ(first, same)
            other = session.answer(allowance)
            if other is None:
                break
            same = [cell for cell in same if other[cell] == first[cell]]
    except BudgetSpent:
        whole = False
    unchanged = set(same)
    apart = (cell for cell, digit in enumerate(first) if digit and cell not in unchanged)
    return tuple(apart), whole


def different(one: Sequence[int], other: Sequence[int]) -> tuple[Cell, ...]:
    """The cells in which two grids differ."""
    return tuple(cell for cell, digit in enumerate(one) if digit != other[cell])


def check_answer(puzzle: Puzzle, answer: Answer) -> None:
    """Holds an answer against givens and rules by the plain check, which knows no clause.

    Raises ProofFault where it does not pass.
    """
    kept = all(given in (0, digit) for given, digit in zip(puzzle.givens, answer, strict=True))
    if not kept or not all(constraint.holds(answer) for constraint in puzzle.constraints()):
        raise ProofFault(f"{puzzle.file}: the answer found does not keep the puzzle's rules")
