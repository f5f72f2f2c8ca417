"""Many puzzles, none of which is another in disguise."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from operator import methodcaller
from typing import Final, Protocol

from verify.compose.composed import Composed
from verify.reading.node import Place
from verify.reading.problems import Problem
from verify.work import in_order

MOST_AGAIN: Final = 8
"""Times that a puzzle is composed anew where it is another in disguise."""


class Composable(Protocol):
    """A puzzle that is to be composed; it travels between processes."""

    @property
    def place(self) -> Place:
        """Where it is asked for."""
        ...

    def compose(self, again: int = 0) -> Composed:
        """What comes of it; something else each time it is asked `again`."""
        ...


def compose_each(
    pieces: Sequence[Composable],
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
) -> Iterator[Composed]:
    """What came of each, in their order, over worker processes.

    One that is another in disguise is composed again. Where that leads to nothing but disguises,
    it has no puzzle.
    """
    seen: set[str] = set()
    first = in_order(methodcaller("compose"), pieces, workers, progress, few=1)
    for piece, found in zip(pieces, first, strict=True):
        other = _unlike(piece, found, seen)
        if other.setting is not None:
            seen.add(other.setting.canonical)
        yield other


def _unlike(piece: Composable, found: Composed, seen: set[str]) -> Composed:
    """What was found, or another that is none of those seen."""
    for again in range(1, MOST_AGAIN + 2):
        if found.setting is None or found.setting.canonical not in seen:
            return found
        if again <= MOST_AGAIN:
            found = piece.compose(again)
    message = "found nothing but disguises of those before, expected another puzzle"
    return replace(found, setting=None, lacking=(Problem(piece.place, message),))
