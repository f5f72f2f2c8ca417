"""What a path is about: the mark or house that it hangs on, where it breaks open, its crux."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from verify.walk.facts.step import House, Link
from verify.walk.told.event import cost_of
from verify.walk.told.needed import Kept

OPENS: Final = 3
"""Digits in a row that follow a strike where a puzzle breaks open, if there are so many at all."""

HANGS_ON: Final = 0.5
"""The share of all digits that rest on a mark where everything hangs on it."""


@dataclass(frozen=True, slots=True)
class Head:
    """What matters most in a path; steps are told by their numbers in it, the first one 0.

    `mark` is what most digits rest on, by itself or over other steps, and `house` stands for it
    where no mark strikes anything; both are None where plain singles are enough. `share` is the
    part of all digits that rest on it. `break_in`, `crux` and `last` are strikes: the first after
    which several digits follow, the one that costs most, and the last one.
    """

    mark: Link | None = None
    house: House | None = None
    share: float = 0.0
    break_in: int | None = None
    crux: int | None = None
    last: int | None = None

    @property
    def everything_hangs_on_it(self) -> bool:
        """Whether most digits rest on the mark."""
        return self.share >= HANGS_ON


def head_of(steps: Sequence[Kept]) -> Head:
    """Reads it off a path."""
    strikes = [number for number, each in enumerate(steps) if not each.step.places]
    if not strikes:
        return Head()
    links = [each.step.because.links[0] for each in _by_marks(steps)]
    weights = {link: _resting_on(steps, link) for link in dict.fromkeys(links)}
    mark = max(weights, key=lambda link: weights[link], default=None)
    placing = sum(bool(each.step.places) for each in steps)
    return Head(
        mark,
        None if mark is not None else _house(steps, strikes),
        weights[mark] / placing if mark is not None and placing else 0.0,
        _break_in(steps, strikes),
        max(strikes, key=lambda number: (cost_of(steps[number].step), -number)),
        strikes[-1],
    )


def _by_marks(steps: Sequence[Kept]) -> list[Kept]:
    """The strikes of marks."""
    return [each for each in steps if each.step.rule and not each.step.places]


def _resting_on(steps: Sequence[Kept], link: Link) -> int:
    """How many digits rest on a mark's strikes, over any number of steps."""
    resting: set[int] = set()
    for number, each in enumerate(steps):
        own = link in each.step.because.links and not each.step.places
        if own or not resting.isdisjoint(each.uses):
            resting.add(number)
    return sum(bool(steps[number].step.places) for number in resting)


def _house(steps: Sequence[Kept], strikes: Sequence[int]) -> House | None:
    houses = steps[strikes[0]].step.because.houses
    return houses[0] if houses else None


def _break_in(steps: Sequence[Kept], strikes: Sequence[int]) -> int:
    """The first strike after which several digits follow in a row; fewer, if that comes late."""
    following = dict(zip(strikes, [*strikes[1:], len(steps)], strict=True))
    early = [number for number in strikes if number <= len(steps) // 2] or strikes[:1]
    most = max(following[number] - number - 1 for number in early)
    return next(n for n in early if following[n] - n - 1 >= min(most, OPENS))
