"""What happens on a sheet, one after the other, while a path to the answer is sought."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, digits_of
from verify.walk.facts.cells import Candidate, Cells
from verify.walk.facts.step import Step, Technique

Missing = dict[Cell, Mask]
"""For some cells, digits that are no longer possible there."""

COST: Final = {
    Technique.LAST_CELL: 0.1,
    Technique.HIDDEN_SINGLE: 0.3,
    Technique.NAKED_SINGLE: 0.6,
    Technique.MARK: 0.8,
    Technique.LOCKED: 1.6,
    Technique.NAKED_PAIR: 2.2,
    Technique.HIDDEN_PAIR: 2.6,
    Technique.ORDER: 2.8,
    Technique.ARRANGEMENTS: 3.0,
    Technique.HOUSE_SUM: 3.2,
    Technique.NAKED_TRIPLE: 3.6,
    Technique.HIDDEN_TRIPLE: 4.0,
    Technique.TWO_LINE_FISH: 4.4,
    Technique.NAKED_QUAD: 4.6,
    Technique.HIDDEN_QUAD: 5.0,
    Technique.WING: 5.4,
    Technique.COLOUR_CHAIN: 6.0,
    Technique.THREE_LINE_FISH: 6.4,
    Technique.FOUR_LINE_FISH: 7.2,
    Technique.SHORT_IF: 7.0,
    Technique.LONG_IF: 9.0,
    Technique.EITHER_WAY: 10.0,
    Technique.DEEP_IF: 14.0,
}
"""What a listener pays for a step of each technique, before its length counts."""

CELL: Final = 0.04
"""What each cell costs that must be looked at."""

SUPPOSED: Final = frozenset(
    {Technique.SHORT_IF, Technique.LONG_IF, Technique.EITHER_WAY, Technique.DEEP_IF}
)
"""What is supposed rather than seen."""

LINK: Final = 0.5
"""What each digit costs that follows in an "if"."""


@dataclass(frozen=True, slots=True)
class Event:
    """A step that was taken, and the sheet before it: its candidates, and its placed cells."""

    step: Step
    before: tuple[Mask, ...]
    placed: Cells

    @property
    def is_placing(self) -> bool:
        """Whether it writes a digit."""
        return bool(self.step.places)


@dataclass(frozen=True, slots=True)
class Based:
    """A step, and all that must be missing from the sheet for it to stand: digits of cells."""

    step: Step
    needs: tuple[tuple[Cell, Mask], ...]

    def stands_on(self, pencil: Sequence[Mask]) -> bool:
        """Whether all that it rests on is gone."""
        return not any(pencil[cell] & mask for cell, mask in self.needs)


def cost_of(step: Step) -> float:
    """What a step costs a listener."""
    followed = (
        len(step.chain) + sum(map(len, step.ways)) + sum(len(each.chain) for each in step.asides)
    )
    return COST[step.technique] + CELL * len(step.because.cells) + LINK * followed


def each_candidate(missing: Missing) -> Iterator[Candidate]:
    """Cell by cell, digit by digit."""
    for cell, mask in missing.items():
        for digit in digits_of(mask):
            yield cell, digit


def add(missing: Missing, cell: Cell, mask: Mask) -> None:
    """Notes down digits that are missing from a cell."""
    missing[cell] = missing.get(cell, 0) | mask
