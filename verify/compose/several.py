"""Many puzzles, none of which is another in disguise."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from verify.compose.composed import Commission, Composed, compose
from verify.reading.problems import Problem
from verify.work import in_order

MOST_AGAIN: Final = 8
"""Times that a puzzle is composed anew where it is another in disguise."""


def compose_each(
    commissions: Sequence[Commission],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
) -> Iterator[Composed]:
    """What came of each, in their order, over worker processes.

    One that is another in disguise is composed anew, from seeds that follow from its own. Where
    all of these lead to disguises it has no puzzle.
    """
    seen: set[str] = set()
    for each in in_order(compose, commissions, workers, progress, few=1):
        found = _unlike(each, seen)
        if found.setting is not None:
            seen.add(found.setting.canonical)
        yield found


def _unlike(found: Composed, seen: set[str]) -> Composed:
    """The same, or another that is none of those seen."""
    commission = found.commission
    for again in range(MOST_AGAIN + 1):
        if found.setting is None or found.setting.canonical not in seen:
            return found
        if again < MOST_AGAIN:
            found = compose(replace(commission, seed=f"{commission.seed}/{again + 1}"))
    message = "found nothing but disguises of those before, expected another puzzle"
    place = commission.sketch.place_of_want("grade")
    return replace(found, setting=None, lacking=(Problem(place, message),))
