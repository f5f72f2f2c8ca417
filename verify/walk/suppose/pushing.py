"""What pushes a digit out of a cell: the fewest digits that must be missing from the others."""

from collections.abc import Hashable, Mapping
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, every_digit, is_single
from verify.walk.facts.cells import Candidate
from verify.walk.facts.notes import Notes
from verify.walk.ways.striker import Striker

MOST_REMEMBERED: Final = 5_000
"""Answers that are remembered, of one sheet."""


class Pushes:
    """What pushes, remembered: many an "if" comes by the same strikes as others before."""

    def __init__(self, notes: Notes) -> None:
        self._digits = notes.digits
        self._known: dict[Hashable, Mapping[Cell, Mask]] = {}

    def of(
        self, striker: Striker, held: dict[Cell, Mask], candidate: Candidate
    ) -> Mapping[Cell, Mask]:
        """The same as `pushing`."""
        who = striker.is_list, striker.links, striker.houses
        asked = who, tuple(held.items()), candidate
        if asked not in self._known:
            if len(self._known) > MOST_REMEMBERED:
                self._known.clear()
            self._known[asked] = pushing(striker, held, candidate, self._digits)
        return self._known[asked]


def pushing(
    striker: Striker, held: dict[Cell, Mask], candidate: Candidate, digits: int
) -> dict[Cell, Mask]:
    """For the cells of a striker that strikes a digit, what must be missing from each.

    `held` is what they hold when it strikes, on a board of so many digits. Cells that hold a
    single digit count whole. A list was made from the sheet as it stood, so all of it counts.
    """
    every = every_digit(digits)
    if striker.is_list:
        return {cell: every & ~mask for cell, mask in held.items()}
    sheet = [0] * (1 + max(held))
    for cell, mask in held.items():
        sheet[cell] = mask
    missing = {cell: every & ~mask for cell, mask in held.items() if every & ~mask}
    for cell in sorted(missing, key=lambda each: (is_single(held[each]), each)):
        sheet[cell] = every
        if _strikes(striker, sheet, candidate):
            del missing[cell]
        else:
            sheet[cell] = held[cell]
    for cell in [cell for cell in missing if not is_single(held[cell])]:
        for digit in digits_of(missing[cell]):
            sheet[cell] |= bit(digit)
            if _strikes(striker, sheet, candidate):
                missing[cell] &= ~bit(digit)
            else:
                sheet[cell] &= ~bit(digit)
    return missing


def _strikes(striker: Striker, sheet: list[Mask], candidate: Candidate) -> bool:
    """Whether it strikes a candidate from a sheet, in one go."""
    cell, digit = candidate
    return any(
        other == cell and mask >> digit & 1
        for strike in striker.strikes(sheet)
        for other, mask in strike.removes
    )
