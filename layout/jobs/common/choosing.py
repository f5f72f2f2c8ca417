"""Puzzles by their grades: for each wish the first in the order of the list that is still unused.

No puzzle comes twice, nor one that is another in disguise. Puzzles are looked at only until every
wish is met, so that a large bank costs no more than a small one.
"""

from collections import Counter
from collections.abc import Callable, Generator, Iterable, Iterator, Mapping, Sequence, Set
from contextlib import closing
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import islice
from typing import Final, TypeAlias

from layout.jobs.common.proving import refuse_unproved
from verify.budget import USUAL, Budget
from verify.check import Item, puzzle_of_item
from verify.disguise.canonical import canonical
from verify.proof.verdict import Answer, Verdict, prove
from verify.puzzle import Puzzle
from verify.reading.problems import MOST_PROBLEMS, Problem, Unreadable
from verify.walk.report.grade import GRADED, Band
from verify.walk.report.kept import GradeKeeper, grade_of
from verify.work import FEW, in_order

AHEAD: Final = 8
"""Puzzles that each worker may look at although it is not known yet whether they are needed."""

Wish: TypeAlias = frozenset[str]
"""The grades of which one is wanted."""

ANY: Final[Wish] = frozenset(band.value for band in GRADED)
"""The wish for a puzzle of any grade."""


@dataclass(frozen=True, slots=True)
class Known:
    """A puzzle that may be printed, its answer, and its form, which all its disguises share.

    The grade is `UNGRADED` also where nobody asked for it.
    """

    puzzle: Puzzle
    answer: Answer
    canonical: str
    grade: Band = Band.UNGRADED


@dataclass(frozen=True, slots=True)
class NotPrintable:
    """A puzzle that has not exactly one answer."""

    puzzle: Puzzle
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Shortage:
    """A wish that is not met as often as it was made."""

    wish: Wish
    missing: int
    wanted: int

    def __str__(self) -> str:
        return f"{in_words(self.wish)} by {self.missing} of {self.wanted}"


def in_words(wish: Wish) -> str:
    """`calm or steady`."""
    if wish == ANY:
        return "of any grade"
    return " or ".join(band.value for band in GRADED if band.value in wish)


class TooFew(Exception):  # noqa: N818 - what befell the job, in the editor's words
    """A bank that runs dry.

    `disguised` counts its puzzles that are others in disguise, `ungraded` those whose walks end
    before the answer: nobody knows how hard they are, so none of them is chosen.
    """

    def __init__(self, shortages: Sequence[Shortage], disguised: int, ungraded: int) -> None:
        self.shortages = tuple(shortages)
        self.disguised = disguised
        self.ungraded = ungraded
        super().__init__(f"{len(self.shortages)} grades are short of puzzles")

    def __str__(self) -> str:
        message = f"short are: {', '.join(map(str, self.shortages))}"
        if self.disguised:
            message += f"; left out as others in disguise: {self.disguised}"
        if self.ungraded:
            message += f"; left out as ungraded: {self.ungraded}"
        return message


def recognize(puzzle: Puzzle, budget: Budget = USUAL) -> Known | Verdict:
    """A puzzle's answer and form, or its verdict where it may not be printed."""
    verdict = prove(puzzle, budget)
    if not verdict.printable:
        return verdict
    (answer,) = verdict.answers
    return Known(puzzle, answer, canonical(puzzle, answer))


def know(
    puzzle: Puzzle, budget: Budget = USUAL, keeper: GradeKeeper | None = None
) -> Known | Verdict:
    """The same with its grade, which `keeper` may know already."""
    found = recognize(puzzle, budget)
    if isinstance(found, Verdict):
        return found
    graded = grade_of(puzzle, budget.deadline(), keeper)
    if graded.cut_short:
        return Verdict("undecided")
    return replace(found, grade=graded.grade.band)


LookedAt: TypeAlias = Known | NotPrintable | tuple[Problem, ...]
"""What is known of an item: of a puzzle, or why there is none."""


def look_at(item: Item, know_it: Callable[[Puzzle], Known | Verdict]) -> LookedAt:
    """Reads an item, and asks what is to be known of its puzzle."""
    try:
        puzzle = puzzle_of_item(item)
    except Unreadable as unreadable:
        return unreadable.problems
    found = know_it(puzzle)
    return NotPrintable(puzzle, found) if isinstance(found, Verdict) else found


def unfinished(item: Item) -> LookedAt:
    """What is known of an item that no process lived to look at."""
    try:
        return NotPrintable(puzzle_of_item(item), Verdict("undecided"))
    except Unreadable as unreadable:
        return unreadable.problems


def choose(
    wishes: Sequence[Wish],
    items: Iterable[Item],
    used: Set[str],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
    budget: Budget = USUAL,
    keeper: GradeKeeper | None = None,
) -> list[Known]:
    """A puzzle for each wish, none of them in `used` by its canonical form.

    `progress` is called with the number of wishes met. Raises Unreadable for items that hold no
    puzzle and MayNotBePrinted for puzzles without exactly one answer, as far as they were looked
    at, and TooFew where there are not enough.
    """
    shelves = _Shelves(Counter(wishes), set(used))
    wrong = _Wrong()
    task = partial(look_at, know_it=partial(know, budget=budget, keeper=keeper))
    with closing(_each_looked_at(task, iter(items), len(wishes), workers)) as every:
        while shelves.lacking and not wrong.full and (found := next(every, None)) is not None:
            if isinstance(found, Known):
                shelves.put(found)
            else:
                wrong.add(found)
            progress(len(wishes) - shelves.lacking)
    wrong.raise_if_any()
    shelves.raise_if_lacking()
    return list(shelves.meet(wishes))


def _each_looked_at(
    task: Callable[[Item], LookedAt], items: Iterator[Item], wishes: int, workers: int | None
) -> Generator[LookedAt, None, None]:
    """What is known of one item after the other; where little is wanted, the first ones here."""
    if wishes < FEW // 2:
        yield from map(task, islice(items, FEW))
    yield from in_order(task, items, workers, lost=unfinished, ahead=AHEAD)


@dataclass(slots=True)
class _Wrong:
    """What keeps the items that were looked at from being printed."""

    problems: list[Problem] = field(default_factory=list)
    refused: list[tuple[Puzzle, Verdict]] = field(default_factory=list)

    @property
    def full(self) -> bool:
        """Whether enough is known to give up."""
        return len(self.problems) + len(self.refused) >= MOST_PROBLEMS

    def add(self, found: NotPrintable | tuple[Problem, ...]) -> None:
        if isinstance(found, NotPrintable):
            self.refused.append((found.puzzle, found.verdict))
        else:
            self.problems += found

    def raise_if_any(self) -> None:
        """Raises Unreadable or MayNotBePrinted."""
        if self.problems:
            raise Unreadable(self.problems)
        refuse_unproved(self.refused)


@dataclass(slots=True)
class _Shelves:
    """Puzzles found so far, in `held` by the wish that each will meet.

    `wanted` counts the wishes of each kind; `used` holds canonical forms that are taken.
    """

    wanted: Mapping[Wish, int]
    used: set[str]
    held: dict[Wish, list[Known]] = field(default_factory=dict)
    disguised: int = 0
    ungraded: int = 0

    @property
    def lacking(self) -> int:
        """How many wishes nothing was found for yet."""
        return sum(map(self._missing, self.wanted))

    def _missing(self, wish: Wish) -> int:
        return self.wanted[wish] - len(self.held.get(wish, ()))

    def put(self, known: Known) -> None:
        """Keeps a puzzle for the narrowest wish that it meets, if any."""
        if known.canonical in self.used:
            self.disguised += 1
            return
        if known.grade is Band.UNGRADED:
            self.ungraded += 1
            return
        for wish in sorted(self.wanted, key=len):
            if known.grade.value in wish and self._missing(wish) > 0:
                self.held.setdefault(wish, []).append(known)
                self.used.add(known.canonical)
                return

    def raise_if_lacking(self) -> None:
        """Raises TooFew where a wish can't be met."""
        short = [
            Shortage(wish, self._missing(wish), self.wanted[wish])
            for wish in sorted(self.wanted, key=_by_grade)
            if self._missing(wish) > 0
        ]
        if short:
            raise TooFew(short, self.disguised, self.ungraded)

    def meet(self, wishes: Sequence[Wish]) -> Iterator[Known]:
        """The puzzles in the order of the wishes."""
        waiting = {wish: iter(found) for wish, found in self.held.items()}
        for wish in wishes:
            yield next(waiting[wish])


def _by_grade(wish: Wish) -> tuple[int, list[int]]:
    """Sorts wishes: the narrow ones first, the easy ones before the hard ones."""
    return len(wish), [number for number, band in enumerate(GRADED) if band.value in wish]
