"""One minimal puzzle below another: things left out one after another until none is spare.

First either givens in reading order or marks in the order of the manifest, then the other of the
two, then parts of the marks that stay. The order decides which of many minimal puzzles it is.
"""

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final, Literal, TypeAlias

from verify.budget import BudgetSpent, Deadline
from verify.lesser import Lesser, Tried, lessers, without
from verify.manifest.rewriting import rewritten
from verify.manifest.source import source_text
from verify.manifest.yaml_text import read_tree
from verify.named_parts import NamedPart, named_lesser, named_parts
from verify.pencil import Grid
from verify.proof.parts import GivenPart
from verify.proof.spare import Exchange, Sparing
from verify.puzzle import Puzzle
from verify.reading.fewer import with_field
from verify.reading.node import Fields, Place
from verify.reading.problems import Problems, Unreadable

First: TypeAlias = Literal["givens", "marks"]
"""What is left out first, as far as it goes."""

NO_RULES: Final = Fields(Place("", 1, 1), ())


@dataclass(frozen=True, slots=True)
class Minimal:
    """What was left out, one after another; `puzzle` and its manifest's `text` are what stays.

    `whole` is False where the budget did not reach all of it, so that more may be spare.
    """

    left_out: tuple[NamedPart, ...]
    puzzle: Puzzle
    text: str
    whole: bool


def minimal(puzzle: Puzzle, answer: Grid, path: Path, first: First, deadline: Deadline) -> Minimal:
    """A minimal puzzle below one that has this one answer; `path` is its manifest's file.

    Raises Unreadable where the file has changed since and can't be read.
    """
    problems = Problems()
    root = read_tree(path, puzzle.file, problems)
    if not isinstance(root, Fields):
        raise Unreadable(problems.found)
    thinning = _Thinning(puzzle, root, answer, deadline)
    thinning.run(first)
    left_out = thinning.named(path)
    text = rewritten(source_text(path, puzzle.file), root, thinning.root(), thinning.puzzle)
    return Minimal(left_out, thinning.puzzle, text, thinning.whole)


@dataclass(slots=True)
class _Thinning:
    """A puzzle on its way down."""

    puzzle: Puzzle
    manifest: Fields
    answer: Grid
    deadline: Deadline
    whole: bool = True
    _full: Puzzle = field(init=False)
    _rules: Fields = field(init=False)
    _left_out: list[GivenPart | Lesser] = field(default_factory=list)

    def __post_init__(self) -> None:
        rules = self.manifest.get("rules")
        self._full = self.puzzle
        self._rules = rules if isinstance(rules, Fields) else NO_RULES

    def run(self, first: First) -> None:
        """Leaves out all that can be, as far as the budget reaches."""
        try:
            sparing = Sparing(self.puzzle, self.answer, self.deadline)
            phases: list[Callable[[Sparing], None]] = [self._givens, self._marks]
            for phase in phases if first == "givens" else reversed(phases):
                phase(sparing)
            self._parts_of_marks(sparing)
        except BudgetSpent:
            self.whole = False

    def _givens(self, sparing: Sparing) -> None:
        for part in sparing.kept:
            if isinstance(part, GivenPart) and self._spare(sparing, Exchange((part,))):
                givens = list(self.puzzle.givens)
                givens[part.cell] = 0
                self.puzzle = replace(self.puzzle, givens=tuple(givens))
                self._left_out.append(part)

    def _marks(self, sparing: Sparing) -> None:
        self._say_less(sparing, lambda lesser: not lesser.exchange.left)

    def _parts_of_marks(self, sparing: Sparing) -> None:
        self._say_less(sparing, lambda lesser: bool(lesser.exchange.left))

    def _say_less(self, sparing: Sparing, fits: Callable[[Lesser], bool]) -> None:
        """Takes one way after another: each changes what the next ones are."""
        tried: Tried = set()
        while (lesser := self._next(sparing, fits, tried)) is not None:
            self.puzzle, self._rules = without(self.puzzle, self._rules, lesser)
            self._left_out.append(lesser)

    def _next(
        self, sparing: Sparing, fits: Callable[[Lesser], bool], tried: Tried
    ) -> Lesser | None:
        """The first way that leaves one answer. One that failed fails with less, too."""
        for lesser in lessers(self.puzzle, self._rules, self.answer, tried, self.deadline):
            if fits(lesser) and self._spare(sparing, lesser.exchange):
                return lesser
            tried.add((lesser.place, lesser.lacks))
        return None

    def _spare(self, sparing: Sparing, exchange: Exchange) -> bool:
        with suppress(BudgetSpent):
            return sparing.spare(exchange)
        self.deadline.check()
        self.whole = False
        return False

    def named(self, path: Path) -> tuple[NamedPart, ...]:
        """What was left out, in its order."""
        return tuple(self._named(path))

    def _named(self, path: Path) -> Iterator[NamedPart]:
        for each in self._left_out:
            if isinstance(each, GivenPart):
                yield from named_parts(self._full, [each], path)
            else:
                yield named_lesser(self._full, each)

    def root(self) -> Fields:
        """The manifest with the rules that are left."""
        return with_field(self.manifest, "rules", self._rules if self._rules.entries else None)
