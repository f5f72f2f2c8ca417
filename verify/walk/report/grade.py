"""The grade: how hard a puzzle is, read off the rounds of its walk.

Only what is the same for the puzzle turned, reflected or relabelled counts: the technique of
each round and its ways on; never which steps were told, nor in which order.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import floor, log2
from typing import Final

from verify.walk.facts.step import Technique
from verify.walk.walk import Round, Walk


class Band(Enum):
    """How hard a puzzle is, in one word; the value is that word."""

    CALM = "calm"
    STEADY = "steady"
    STIFF = "stiff"
    STEEP = "steep"
    SEVERE = "severe"
    UNGRADED = "ungraded"


GRADED: Final = (Band.CALM, Band.STEADY, Band.STIFF, Band.STEEP, Band.SEVERE)
"""The bands of walks that finish, easiest first."""

BAND_WIDTH: Final = 2
"""Each band is so many points of the score wide, but the last: it has no upper end."""

EFFORT: Final = {
    Technique.LAST_CELL: 0.0,
    Technique.HIDDEN_SINGLE: 0.2,
    Technique.NAKED_SINGLE: 0.6,
    Technique.MARK: 0.8,
    Technique.LOCKED: 2.0,
    Technique.NAKED_PAIR: 2.4,
    Technique.HIDDEN_PAIR: 2.7,
    Technique.ARRANGEMENTS: 4.0,
    Technique.ORDER: 4.1,
    Technique.NAKED_TRIPLE: 4.2,
    Technique.HIDDEN_TRIPLE: 4.4,
    Technique.HOUSE_SUM: 4.5,
    Technique.TWO_LINE_FISH: 4.6,
    Technique.NAKED_QUAD: 4.7,
    Technique.HIDDEN_QUAD: 4.9,
    Technique.WING: 6.0,
    Technique.COLOUR_CHAIN: 6.3,
    Technique.THREE_LINE_FISH: 6.4,
    Technique.FOUR_LINE_FISH: 6.6,
    Technique.SHORT_IF: 6.8,
    Technique.LONG_IF: 8.0,
    Technique.EITHER_WAY: 8.4,
    Technique.DEEP_IF: 9.0,
}
"""The score of a puzzle that needs a technique and is otherwise as easy as can be; it rises in
the order in which the walk tries them."""

TOIL: Final = 0.7
"""What hard rounds without end would add to the score."""

TIGHTNESS: Final = 0.5
"""What a hard round with a single way on adds; with n ways it is an nth of that."""

LENGTH: Final = 0.5
"""What a walk without end would add. With the two above this stays below `BAND_WIDTH`, so that
together they move a puzzle by one band at most."""

HALF_TOIL: Final = 4
"""Hard rounds that add half of `TOIL`."""

HALF_LENGTH: Final = 30
"""Rounds that add half of `LENGTH`: most classic walks have 20 to 40."""


MARKS: Final = 4.6
"""What marks without end would add to the score of a puzzle that falls by marks alone."""

HALF_MARKS: Final = 1.8
"""The resistance that adds half of `MARKS`: nine marks that open two digits each."""

SUPPOSED: Final = frozenset(
    {Technique.SHORT_IF, Technique.LONG_IF, Technique.EITHER_WAY, Technique.DEEP_IF}
)
"""What is followed in the head."""

SUPPOSING: Final = 6.2
"""The score with nothing to follow; a single "if" that fails at once makes it 6.7."""

DOUBLED: Final = 0.5
"""What twice as much to follow adds."""


@dataclass(frozen=True, slots=True)
class Grade:
    """How hard a puzzle is.

    `score` has one decimal, from 0 to about 10, and falls into `band`; an ungraded puzzle has
    none, for its walk ends before the answer. `hardest` is the technique of most effort on the
    walk as far as it went, or None where there was nothing to do.
    """

    band: Band
    score: float | None
    hardest: Technique | None


def grade(walk: Walk) -> Grade:
    """Grades a walk."""
    hardest = hardest_of(walk)
    if not walk.finished:
        return Grade(Band.UNGRADED, None, hardest)
    score = round(_score(walk.rounds, hardest), 1) if hardest else 0.0
    return Grade(_band(score), score, hardest)


def hardest_of(walk: Walk) -> Technique | None:
    """The technique of most effort; None where there was nothing to do."""
    return max((each.technique for each in walk.rounds), key=EFFORT.__getitem__, default=None)


def _score(rounds: Sequence[Round], hardest: Technique) -> float:
    """How hard it is with what suffices; each kind of hardest technique has its own measure."""
    if hardest is Technique.MARK:
        return EFFORT[hardest] + MARKS * _share(_resistance(rounds), HALF_MARKS)
    if hardest in SUPPOSED:
        return SUPPOSING + DOUBLED * log2(1 + _followed(rounds))
    ways = [each.ways for each in rounds if is_as_hard(each.technique, hardest)]
    toil = TOIL * _share(len(ways), HALF_TOIL)
    tightness = TIGHTNESS / min(ways) if ways else 0.0
    return EFFORT[hardest] + toil + tightness + LENGTH * _share(len(rounds), HALF_LENGTH)


def _resistance(rounds: Sequence[Round]) -> float:
    """How often marks must be asked, each time shared by the digits that they open then.

    A shape that is read off at once opens many; where all marks together open a single digit, they
    must be combined. Where they open none at first, they are asked again.
    """
    found, asked = 0.0, 0
    for each in rounds:
        if each.technique is Technique.MARK:
            asked += 1
        elif asked:
            found += asked / each.ways
            asked = 0
    return found


def _followed(rounds: Sequence[Round]) -> int:
    """The rounds of consequences that must be followed: the fewest of each round that supposes.

    Either way is followed twice at the least.
    """
    total = 0
    for each in rounds:
        if each.technique in SUPPOSED:
            ways = 2 if each.technique is Technique.EITHER_WAY else 1
            total += ways * min(step.depth for step in each.steps)
    return total


def is_as_hard(technique: Technique, hardest: Technique | None) -> bool:
    """Whether a round counts as hard: in the band of the hardest, and more than a last cell."""
    effort = EFFORT[technique]
    return hardest is not None and effort > 0 and _band(effort) is _band(EFFORT[hardest])


def _band(score: float) -> Band:
    """The band that a score falls into."""
    return GRADED[min(floor(score / BAND_WIDTH), len(GRADED) - 1)]


def _share(count: float, half: float) -> float:
    """From 0 towards 1: a half where there are `half` of something."""
    return count / (count + half)
