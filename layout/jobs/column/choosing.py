"""A puzzle for each day, by its grade: the first in the order of the bank that is still unused.

No puzzle comes twice, nor one that is another in disguise. Puzzles are looked at only until every
day has one, so that a large bank costs no more than a small one.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Final

from layout.jobs.common.proving import refuse_unproved, unproved
from verify.budget import USUAL, Budget
from verify.disguise.canonical import canonical
from verify.proof.verdict import Answer, Verdict, prove
from verify.puzzle import Puzzle
from verify.walk.report.grade import GRADED, Band
from verify.walk.report.kept import GradeKeeper, grade_of
from verify.work import in_order

LEAST_LOOKED_AT: Final = 24
"""Puzzles that are looked at together."""

ANY: Final = "any"
"""The wish of a day that takes a puzzle of any grade."""


@dataclass(frozen=True, slots=True)
class Known:
    """A puzzle that may be printed, its answer and its grade; `canonical` is that of `verify`."""

    puzzle: Puzzle
    answer: Answer
    grade: Band
    canonical: str


@dataclass(frozen=True, slots=True)
class Shortage:
    """A grade, or `ANY`, of which puzzles are missing: so many of those that were wanted."""

    grade: str
    missing: int
    wanted: int


class TooFew(Exception):  # noqa: N818 - what befell the season, in the editor's words
    """A bank that runs dry.

    `disguised` counts its puzzles that are others in disguise, `ungraded` those whose walks end
    before the answer: nobody knows how hard they are, so no day takes them.
    """

    def __init__(self, shortages: Sequence[Shortage], disguised: int, ungraded: int) -> None:
        self.shortages = tuple(shortages)
        self.disguised = disguised
        self.ungraded = ungraded
        super().__init__(f"{len(self.shortages)} grades are short of puzzles")


def know(
    puzzle: Puzzle, budget: Budget = USUAL, keeper: GradeKeeper | None = None
) -> Known | Verdict:
    """What must be known of a puzzle, or its verdict where it may not be printed."""
    verdict = prove(puzzle, budget)
    if not verdict.printable:
        return verdict
    (answer,) = verdict.answers
    result = grade_of(puzzle, budget.deadline(), keeper)
    if result.cut_short:
        return replace(verdict, word="undecided")
    return Known(puzzle, answer, result.grade.band, canonical(puzzle, answer))


def choose(
    wishes: Sequence[str],
    puzzles: Sequence[Puzzle],
    used: Set[str],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
    budget: Budget = USUAL,
    keeper: GradeKeeper | None = None,
) -> list[Known]:
    """A puzzle for each wish, a grade or `ANY`, none of them in `used` by its canonical form.

    `progress` is called with the number of wishes met. Raises MayNotBePrinted for puzzles without
    exactly one answer, and TooFew where the bank runs dry.
    """
    task = partial(know, budget=budget, keeper=keeper)
    shelves = _Shelves(Counter(wishes), set(used))
    refused: list[tuple[Puzzle, Verdict]] = []
    start = 0
    while shelves.lacking and start < len(puzzles):
        some = puzzles[start : start + max(LEAST_LOOKED_AT, shelves.lacking)]
        for puzzle, found in zip(some, in_order(task, some, workers, lost=unproved), strict=True):
            if isinstance(found, Verdict):
                refused.append((puzzle, found))
            else:
                shelves.put(found)
            progress(len(wishes) - shelves.lacking)
        start += len(some)
    refuse_unproved(refused)
    shelves.raise_if_lacking()
    return list(shelves.meet(wishes))


@dataclass(slots=True)
class _Shelves:
    """Puzzles found so far, in `held` by the wish that each will meet.

    `wanted` counts the wishes of each word; `used` holds canonical forms that are taken.
    """

    wanted: Mapping[str, int]
    used: set[str]
    held: dict[str, list[Known]] = field(default_factory=dict)
    disguised: int = 0
    ungraded: int = 0

    @property
    def lacking(self) -> int:
        """How many wishes nothing was found for yet."""
        return sum(map(self._missing, self.wanted))

    def _missing(self, wish: str) -> int:
        return self.wanted.get(wish, 0) - len(self.held.get(wish, ()))

    def put(self, known: Known) -> None:
        """Keeps a puzzle for the wish of its grade, else for one of any grade, else not."""
        if known.canonical in self.used:
            self.disguised += 1
            return
        if known.grade is Band.UNGRADED:
            self.ungraded += 1
            return
        for wish in (known.grade.value, ANY):
            if self._missing(wish) > 0:
                self.held.setdefault(wish, []).append(known)
                self.used.add(known.canonical)
                return

    def raise_if_lacking(self) -> None:
        """Raises TooFew where a wish can't be met."""
        short = [
            Shortage(wish, self._missing(wish), self.wanted[wish])
            for wish in (*(band.value for band in GRADED), ANY)
            if self._missing(wish) > 0
        ]
        if short:
            raise TooFew(short, self.disguised, self.ungraded)

    def meet(self, wishes: Sequence[str]) -> Iterator[Known]:
        """The puzzles in the order of the wishes."""
        waiting = {wish: iter(found) for wish, found in self.held.items()}
        for wish in wishes:
            yield next(waiting[wish])
