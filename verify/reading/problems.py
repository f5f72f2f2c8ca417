"""What is wrong in a file, for the editor who wrote it: all of it, not the first alone."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches

from verify.reading.node import Place, shown

MOST_PROBLEMS = 50
"""Problems kept for one file; past that a file is not a slip but another format."""


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing that could not be understood, where it stands, and what was expected."""

    place: Place
    message: str

    def __str__(self) -> str:
        return f"{self.place}: {self.message}"


class Unreadable(Exception):  # noqa: N818 - what befell the file, in the editor's words
    """A file that could not be understood; holds every problem found in it, in order."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(set(problems)))
        super().__init__("\n".join(map(str, self.problems)))


def nearest(name: str, known: Iterable[str]) -> str:
    """A way on from an unknown name: the nearest known one, or all that are known."""
    names = sorted(known)
    near = get_close_matches(name.lower(), names, n=1, cutoff=0.6)
    return f'did you mean "{near[0]}"?' if near else "known: " + ", ".join(names)


@dataclass(slots=True)
class Problems:
    """Collects the problems of one file while it is being read."""

    found: list[Problem] = field(default_factory=list)

    @property
    def full(self) -> bool:
        """Whether no more problems are kept, so that there is no need to look for any."""
        return len(self.found) >= MOST_PROBLEMS

    def add(self, place: Place, message: str) -> None:
        """Notes one problem; the first `MOST_PROBLEMS` are kept."""
        if not self.full:
            self.found.append(Problem(place, message))

    def expected(self, place: Place, found: str, expected: str) -> None:
        """Notes that one thing was found where another was expected."""
        self.add(place, f"found {found}, expected {expected}")

    def unknown(self, place: Place, what: str, name: str, known: Iterable[str]) -> None:
        """Notes an unknown name, with the nearest known one or all that are known."""
        if self.full:
            return
        name = shown(name)
        self.add(place, f'unknown {what} "{name}"; {nearest(name, known)}')

    def raise_if_any(self) -> None:
        """Raises Unreadable where anything was noted."""
        if self.found:
            raise Unreadable(self.found)
