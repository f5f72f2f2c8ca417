"""Where a house confines a digit: to cells that all see one and the same cell outside it."""

from collections.abc import Iterator
from typing import Final, NamedTuple

from verify.walk.facts.cells import Cells, cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import House

FEWEST_SEEN: Final = 2
"""With one place left in its house a digit is placed, which says the same."""


class Confinement(NamedTuple):
    """A digit with no place in `others`, cells of a house, leaves all of `outside`.

    Each cell of `outside` sees every other cell of the house.
    """

    house: House
    others: Cells
    outside: Cells


def confinements(notes: Notes) -> tuple[Confinement, ...]:
    """All that the full houses of a sheet can confine digits to."""
    return notes.once(_confinements)


def _confinements(notes: Notes) -> tuple[Confinement, ...]:
    return tuple(_each(notes))


def _each(notes: Notes) -> Iterator[Confinement]:
    for house, within in notes.full_sets:
        seen: dict[Cells, Cells] = {}
        for cell in cells_of(notes.every_cell & ~within):
            others = within & ~notes.peers[cell]
            if (within ^ others).bit_count() >= FEWEST_SEEN:
                seen[others] = seen.get(others, 0) | 1 << cell
        for others, outside in seen.items():
            yield Confinement(house, others, outside)
