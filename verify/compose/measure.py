"""How near a puzzle comes to what is wanted, read off its walk."""

from dataclasses import dataclass
from typing import Final

from verify.budget import BudgetSpent, Deadline
from verify.compose.want import Want
from verify.puzzle import Puzzle
from verify.walk.report.grade import GRADED, Band, Grade, grade
from verify.walk.techniques.arrangements import arrangements
from verify.walk.techniques.locked import locked
from verify.walk.techniques.wings import wings
from verify.walk.walk import LADDER, Finder, Walk, walk

BEYOND: Final = {Band.CALM: locked, Band.STEADY: arrangements, Band.STIFF: wings}
"""The first technique that makes a puzzle harder than a band; the others have none."""


@dataclass(frozen=True, slots=True, order=True)
class Shortfall:
    """What a puzzle lacks, what counts most first; nothing where all is 0.

    `bands` is how far off its grade is; a walk that ends in the middle is one band further than
    the hardest.
    """

    bands: int = 0
    avoided: int = 0
    missing: int = 0
    givens: int = 0

    @property
    def nothing(self) -> bool:
        """Whether the puzzle is as it is wanted."""
        return self == Shortfall()

    @property
    def in_band(self) -> bool:
        """Whether its walk is as it is wanted, apart from techniques that it does not need."""
        return not self.bands and not self.avoided

    @property
    def is_but_givens(self) -> bool:
        """Whether it has too many givens, and nothing else is wrong with it."""
        return self.givens > 0 and self == Shortfall(givens=self.givens)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A puzzle with one answer, its walk as far as it was followed, and what it lacks.

    `too_hard` where it should be easier: its walk needs what is beyond the band, or avoided.
    """

    puzzle: Puzzle
    walk: Walk
    grade: Grade
    shortfall: Shortfall
    too_hard: bool

    @property
    def givens(self) -> int:
        """How many givens it has."""
        return sum(map(bool, self.puzzle.givens))


def measured(puzzle: Puzzle, want: Want, deadline: Deadline) -> Candidate:
    """Walks a puzzle no further than it must be, and says what it lacks.

    Raises BudgetSpent after the deadline.
    """
    path = walk(puzzle, reasons=False, deadline=deadline, ladder=_ladder(want))
    if path.cut_short:
        raise BudgetSpent
    found = grade(path)
    off = _bands_off(found.band, want.band)
    names = [each.technique.value for each in path.rounds]
    avoided = sum(name in want.avoids for name in names)
    missing = sum(name not in names for name in want.uses)
    givens = sum(map(bool, puzzle.givens))
    excess = 0 if want.givens is None else max(0, givens - want.givens)
    shortfall = Shortfall(abs(off), avoided, missing, excess)
    return Candidate(puzzle, path, found, shortfall, too_hard=off > 0 or (avoided > 0 and off == 0))


def _ladder(want: Want) -> tuple[Finder, ...]:
    """The techniques that a puzzle of the band may need; the next one ends the walk."""
    beyond = None if want.band is None else BEYOND.get(want.band)
    return LADDER if beyond is None else LADDER[: LADDER.index(beyond)]


def _bands_off(found: Band, wanted: Band | None) -> int:
    """How many bands too hard; below 0 where it is too easy. An unfinished walk is too hard."""
    rank = (*GRADED, Band.UNGRADED).index
    if wanted is None:
        return 1 if found is Band.UNGRADED else 0
    return rank(found) - rank(wanted)
