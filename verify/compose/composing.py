"""Finds a puzzle that is as a sketch wants it: answer after answer, order after order.

All chance comes from a seed and every bound but the deadline is one of work, so the same seed gives
the same puzzle on every machine that is given the time.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from random import Random
from typing import Final, TypeAlias

from verify.board import Cell
from verify.budget import BudgetSpent, Deadline
from verify.compose.answers import Answers, Others
from verify.compose.easing import Easing
from verify.compose.measure import Candidate, measured
from verify.compose.orbits import Orbit, image, orbits
from verify.compose.sketch import Sketch
from verify.compose.thinning import Thinner
from verify.pencil import Grid
from verify.puzzle import Puzzle

MOST_ANSWERS: Final = 2000
"""Answers that are tried for one puzzle."""

ORDERS: Final = 3
"""Orders in which givens are taken from one answer."""

SQUEEZES: Final = 16
"""Times that givens are exchanged for fewer ones."""

GIVEN_BACK: Final = 2
"""Orbits that are given back before others are taken, to exchange them."""

Heard: TypeAlias = Callable[[Candidate | None, int], None]
"""Told the best so far and how many answers were drawn, whenever one of them changes."""


@dataclass(slots=True)
class Composing:
    """One search, from one seed, over so many answers. What it has found is there at any time.

    `best` is the puzzle nearest to what is wanted; None where no answer was ever the only one.
    `tries` counts the answers that were drawn. `apart` are cells that differ between two answers
    although every cell that may have a given has one; nothing where that did not stand in the way.
    `impossible` where the sketch has no answer, `spent` where the time was over first.
    """

    sketch: Sketch
    seed: str
    deadline: Deadline
    heard: Heard = lambda best, tries: None
    most_answers: int = MOST_ANSWERS
    best: Candidate | None = None
    tries: int = 0
    apart: frozenset[Cell] = frozenset()
    impossible: bool = False
    spent: bool = False
    _always: frozenset[Cell] = field(init=False)
    _loose: tuple[Orbit, ...] = field(init=False)

    def __post_init__(self) -> None:
        sketch, board = self.sketch, self.sketch.puzzle.board
        symmetry = sketch.want.symmetry
        self._always = sketch.fixed | {image(board, cell, symmetry) for cell in sketch.fixed}
        self._loose = tuple(orbits(board, symmetry, sketch.may - self._always))

    @property
    def found(self) -> bool:
        """Whether the best is as it was wanted."""
        return self.best is not None and self.best.shortfall.nothing

    def run(self) -> None:
        """Searches until there is a puzzle as it is wanted, or no more is to be tried."""
        chance = Random(self.seed)  # noqa: S311 - the same puzzle each time
        try:
            answers = Answers(self.sketch, self.deadline)
            self.impossible = answers.some() is None
            while self.tries < self.most_answers and not (self.found or self.impossible):
                self.tries += 1
                self.heard(self.best, self.tries)
                self._try(answers.random(chance), chance)
        except BudgetSpent:
            self.spent = True

    def _try(self, answer: Grid, chance: Random) -> None:
        """Puzzles with one answer, in a few orders."""
        thinner = Thinner(Others(self.sketch, answer, self.deadline))
        every = self._always.union(*self._loose)
        if not thinner.suffice(every):
            self.apart = self.apart or thinner.not_unique()
            return
        easing = Easing(self._loose, self._measure(answer))
        for _ in range(ORDERS):
            kept = self._few(thinner, thinner.thinned(every, self._order(chance)), chance)
            for candidate in easing.eased(kept, chance):
                self._note(candidate)
                if self.found:
                    return
            for candidate in self._trimmed(thinner, easing, chance):
                self._note(candidate)
                if self.found:
                    return

    def _order(self, chance: Random) -> list[Orbit]:
        order = list(self._loose)
        chance.shuffle(order)
        return order

    def _few(self, thinner: Thinner, kept: frozenset[Cell], chance: Random) -> frozenset[Cell]:
        """Givens exchanged for fewer ones while there are more than wanted."""
        most = self.sketch.want.givens
        for _ in range(SQUEEZES):
            if most is None or len(kept) <= most:
                break
            order = self._order(chance)
            back = [orbit for orbit in order if kept.isdisjoint(orbit)][:GIVEN_BACK]
            rest = [orbit for orbit in order if orbit not in back]
            other = thinner.thinned(kept.union(*back), [*rest, *back])
            kept = other if len(other) <= len(kept) else kept
        return kept

    def _trimmed(self, thinner: Thinner, easing: Easing, chance: Random) -> Iterator[Candidate]:
        """The best puzzle with givens taken away that its walk does without, where it has too many.

        Only while nothing else is wrong with it.
        """
        candidate = easing.last
        while candidate is not None and candidate.shortfall.is_but_givens:
            kept = givens_of(candidate.puzzle)
            fewer = (
                easing.measure(kept.difference(orbit))
                for orbit in self._order(chance)
                if kept.issuperset(orbit) and thinner.suffice(kept.difference(orbit))
            )
            nearest = candidate.shortfall
            candidate = next((each for each in fewer if each.shortfall < nearest), None)
            if candidate is not None:
                yield candidate

    def _measure(self, answer: Grid) -> Callable[[frozenset[Cell]], Candidate]:
        sketch = self.sketch

        def measure(givens: frozenset[Cell]) -> Candidate:
            shown = tuple(d if cell in givens else 0 for cell, d in enumerate(answer))
            puzzle = replace(sketch.puzzle, givens=shown)
            return measured(puzzle, sketch.want, self.deadline)

        return measure

    def _note(self, candidate: Candidate) -> None:
        """Keeps the candidate where it is nearer than all before."""
        if self.best is None or candidate.shortfall < self.best.shortfall:
            self.best = candidate
            self.heard(candidate, self.tries)


def givens_of(puzzle: Puzzle) -> frozenset[Cell]:
    """The cells with a given."""
    return frozenset(cell for cell, digit in enumerate(puzzle.givens) if digit)
