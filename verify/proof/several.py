"""Why there are several answers: where they part, how many they are, and what would settle them."""

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Final, TypeAlias

from verify.board import Cell
from verify.budget import NEVER, USUAL, BudgetSpent, Deadline
from verify.formula.formula import Literal
from verify.pencil import digits_of, is_single
from verify.proof.solver import Allowance, alone
from verify.proof.verdict import Answer, Verdict, check_answer, different, formula_of
from verify.puzzle import Puzzle

USUAL_COUNT: Final = 10
"""Answers that are counted where nothing else is said."""

MOST_TRIED: Final = 2_000
"""Digits of cells that are tried as one more given; a board of 9x9 has 729."""

STARTS: Final = 8
"""Answers around which the smallest pattern is looked for."""

Placing: TypeAlias = tuple[Cell, int]
"""A cell and the digit in it."""


@dataclass(frozen=True, slots=True)
class Several:
    """What is known of the answers of a puzzle that has several.

    `count` is the number of answers found, at least two; `more` whether there are others, None
    where that is undecided. `closest` are the two found that differ in the fewest cells;
    `smallest` where no answer differs from the first of them in a part of these cells. `settling`
    are the digits that would each leave one answer if they were given, in reading order; None
    where not all could be tried.
    """

    count: int
    more: bool | None
    closest: tuple[Answer, Answer]
    smallest: bool
    settling: tuple[Placing, ...] | None

    @property
    def pattern(self) -> tuple[Cell, ...]:
        """The cells in which the closest two differ."""
        return different(*self.closest)


def several(
    puzzle: Puzzle,
    verdict: Verdict,
    most: int = USUAL_COUNT,
    deadline: Deadline = NEVER,
    conflicts: int = USUAL.conflicts,
) -> Several:
    """What is known of a puzzle whose verdict is `many`; at most `most` answers are counted.

    What the budget does not reach is told as undecided. Raises ProofFault as `prove` does.
    """
    search = _Search((verdict.answers[0], verdict.answers[1]))
    with suppress(BudgetSpent):
        search.run(_Sheet(puzzle, Allowance(conflicts, deadline)), max(most, 2))
    for answer in search.closest:
        check_answer(puzzle, answer)
    return Several(len(search.found), search.more, search.closest, search.smallest, search.settling)


class _Sheet:
    """The puzzle on a solver of its own. Whatever asks it raises BudgetSpent."""

    def __init__(self, puzzle: Puzzle, allowance: Allowance) -> None:
        houses = puzzle.houses()
        formula = formula_of(puzzle, houses, allowance.deadline)
        if formula is None:
            raise ValueError("a puzzle without an answer")
        self.pencil = formula.pencil
        self.open = [cell for cell, mask in enumerate(formula.pencil) if not is_single(mask)]
        self.literal = formula.literal
        self.switch = formula.fresh
        self._allowance = allowance
        self._session = alone(formula, houses)

    def answer(self, *supposed: Literal) -> Answer | None:
        """An answer in which the literals hold, or None."""
        return self._session.answer(self._allowance, supposed)

    def differ(self, answer: Answer, switch: Literal) -> None:
        """Where the switch is on, an answer is not this one."""
        self._session.differ(answer, self.open, where=switch)

    def other_than(self, answer: Answer) -> Literal:
        """A new switch; where it is on, an answer is not this one."""
        switch = self.switch()
        self.differ(answer, switch)
        return switch


class _Search:
    """What is found out, as far as it has come."""

    def __init__(self, two: tuple[Answer, Answer]) -> None:
        self.found = list(two)
        self.more: bool | None = None
        self.closest = two
        self.smallest = False
        self.settling: tuple[Placing, ...] | None = None

    def run(self, sheet: _Sheet, most: int) -> None:
        """Counts, brings two answers close, and tries every digit. Raises BudgetSpent."""
        self._count(sheet, most)
        for start in self.found[:STARTS]:
            self._bring_close(sheet, start)
        every = _settling(sheet, self.found) if self.more else _once(self.found)
        self.settling = tuple(every)

    def _count(self, sheet: _Sheet, most: int) -> None:
        others = sheet.switch()
        for answer in self.found:
            sheet.differ(answer, others)
        while (another := sheet.answer(others)) is not None:
            if len(self.found) >= most:
                self.more = True
                return
            self.found.append(another)
            sheet.differ(another, others)
        self.more = False

    def _bring_close(self, sheet: _Sheet, start: Answer) -> None:
        """From the nearest answer found to ever nearer ones, as long as there are any."""
        near = min(
            (answer for answer in self.found if answer != start),
            key=lambda answer: len(different(start, answer)),
        )
        self._keep(start, near, smallest=False)
        other = sheet.other_than(start)
        waiting, needed = list(different(start, near)), set[Cell]()
        while waiting:
            cell = waiting.pop()
            free = needed.union(waiting)
            fixed = (sheet.literal(each, start[each]) for each in sheet.open if each not in free)
            nearer = sheet.answer(other, *fixed)
            if nearer is None:
                needed.add(cell)
            else:
                near = nearer
                apart = set(different(start, near))
                waiting = [each for each in waiting if each in apart]
                self._keep(start, near, smallest=False)
        self._keep(start, near, smallest=True)

    def _keep(self, start: Answer, near: Answer, *, smallest: bool) -> None:
        """Keeps two answers that are closer than those before, or known to be the closest."""
        now, before = len(different(start, near)), len(different(*self.closest))
        if (now, not smallest) < (before, not self.smallest):
            self.closest, self.smallest = (start, near), smallest


def _once(answers: Sequence[Answer]) -> Iterator[Placing]:
    """The digits that stand in one alone of all answers there are."""
    times = Counter(placing for answer in answers for placing in enumerate(answer))
    yield from sorted(placing for placing, count in times.items() if count == 1)


def _settling(sheet: _Sheet, found: Sequence[Answer]) -> Iterator[Placing]:
    """The same where only some answers are known, by asking for a first and a second."""
    known = _Known()
    for answer in found:
        known.add(answer)
    tried = 0
    for cell in sheet.open:
        for digit in digits_of(sheet.pencil[cell]):
            placing, literal = (cell, digit), sheet.literal(cell, digit)
            if placing in known.twice:
                continue
            tried += 1
            if tried > MOST_TRIED:
                raise BudgetSpent
            first = known.holding.get(placing) or sheet.answer(literal)
            if first is None:
                continue
            known.add(first)
            second = sheet.answer(literal, known.other_than(first, sheet))
            if second is None:
                yield placing
            else:
                known.add(second)


class _Known:
    """The answers that are known, by the digits in them.

    `holding` has one answer for each digit of a cell, `twice` the digits that stand in several.
    """

    def __init__(self) -> None:
        self.holding: dict[Placing, Answer] = {}
        self.twice: set[Placing] = set()
        self._switches: dict[Answer, Literal] = {}

    def add(self, answer: Answer) -> None:
        """Takes an answer in; one that is known changes nothing."""
        for placing in enumerate(answer):
            if self.holding.setdefault(placing, answer) != answer:
                self.twice.add(placing)

    def other_than(self, answer: Answer, sheet: _Sheet) -> Literal:
        """The switch that asks for another answer."""
        if answer not in self._switches:
            self._switches[answer] = sheet.other_than(answer)
        return self._switches[answer]
