"""What can't be set on its page, for the editor: told all at once, not the first alone."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeAlias, TypeVar

from verify.puzzle import Puzzle

T = TypeVar("T")

JobPath: TypeAlias = tuple[str | int, ...]
"""Where something stands in the job: ("sections", 0, "title")."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """One thing that does not fit: in a puzzle's `field`, or where `path` leads in the job."""

    message: str
    path: JobPath = ()
    puzzle: Puzzle | None = None
    field: str = ""


class Misfits(Exception):  # noqa: N818 - what befell the words, in the editor's terms
    """Everything that does not fit."""

    def __init__(self, found: Iterable[Misfit]) -> None:
        self.found = tuple(found)
        super().__init__("; ".join(misfit.message for misfit in self.found))


def gathered(makers: Iterable[Callable[[], T]]) -> list[T]:
    """What each maker makes; raises Misfits with those of all makers."""
    results: list[T] = []
    found: list[Misfit] = []
    for make in makers:
        try:
            results.append(make())
        except Misfits as misfits:
            found += misfits.found
    if found:
        raise Misfits(found)
    return results
