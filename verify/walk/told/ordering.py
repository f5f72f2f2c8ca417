"""The order in which steps are told: each where it is first needed, near what was told last."""

from collections.abc import Sequence
from math import fsum
from typing import Final

from verify.board import Board, Cell
from verify.walk.told.event import cost_of
from verify.walk.told.needed import Kept

FAR: Final = 0.12
"""What it costs to look elsewhere, for each cell on the way there."""

SAME_LINE: Final = 0.4
"""What it saves to stay in the row, column or box where one looked last."""


def in_telling_order(kept: Sequence[Kept], board: Board) -> list[Kept]:
    """The same steps, each after all that it uses; `uses` count in the new order.

    What a later thought needs comes first; plain digits that nothing waits for come last.
    """
    order = _Order(kept, board).run()
    place = {number: at for at, number in enumerate(order)}
    return [
        Kept(kept[number].based, tuple(sorted(place[use] for use in kept[number].uses)))
        for number in order
    ]


class _Order:
    """Chooses one digit after another, each with the strikes that it still waits for."""

    def __init__(self, kept: Sequence[Kept], board: Board) -> None:
        self._kept = kept
        self._board = board
        self._told: set[int] = set()
        self._order: list[int] = []
        self._urgent = self._leading_to_strikes()
        self._at: Cell | None = None

    def run(self) -> list[int]:
        """The numbers of the steps, in their order."""
        placing = [number for number, each in enumerate(self._kept) if each.step.places]
        left = set(placing)
        while left:
            ready = [
                (number, wait)
                for number in sorted(left)
                if (wait := self._waits(number)) is not None
            ]
            number, wait = min(ready, key=lambda each: self._price(*each))
            for each in (*wait, number):
                self._tell(each)
            left.discard(number)
        for number in range(len(self._kept)):
            if number not in self._told:
                self._tell(number)
        return self._order

    def _tell(self, number: int) -> None:
        self._told.add(number)
        self._order.append(number)
        step = self._kept[number].step
        cells = [cell for cell, _ in (*step.places, *step.removes)]
        self._at = cells[-1] if cells else self._at

    def _waits(self, number: int) -> list[int] | None:
        """The strikes to be told before a digit, in order; None where it waits for a digit."""
        found: set[int] = set()
        waiting = list(self._kept[number].uses)
        while waiting:
            use = waiting.pop()
            if use in self._told or use in found:
                continue
            if self._kept[use].step.places:
                return None
            found.add(use)
            waiting += self._kept[use].uses
        return sorted(found)

    def _price(self, number: int, wait: Sequence[int]) -> tuple[float, int]:
        """Cheap and near first; what leads to a strike before what nothing waits for."""
        steps = [self._kept[each].step for each in (*wait, number)]
        late = 0.0 if number in self._urgent else 100.0
        return late + fsum(map(cost_of, steps)) + self._way(number), number

    def _way(self, number: int) -> float:
        """How far a digit is from where one looked last."""
        if self._at is None:
            return 0.0
        ((cell, _),) = self._kept[number].step.places
        row, column = self._board.place(cell)
        last_row, last_column = self._board.place(self._at)
        near = SAME_LINE if row == last_row or column == last_column else 0.0
        return FAR * (abs(row - last_row) + abs(column - last_column)) - near

    def _leading_to_strikes(self) -> set[int]:
        """All that some strike rests on, over any number of steps, and what it leads to first."""
        found: set[int] = set()
        waiting = [number for number, each in enumerate(self._kept) if not each.step.places]
        while waiting:
            number = waiting.pop()
            for use in self._kept[number].uses:
                if use not in found:
                    found.add(use)
                    waiting.append(use)
        return found
