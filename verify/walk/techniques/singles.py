"""Placements: the last cell of a house, the only cell for a digit, the only digit for a cell."""

from collections.abc import Iterator

from verify.pencil import bit, digits_of, highest, is_single
from verify.walk.notes import Notes, cells_of
from verify.walk.step import Because, Step, Technique


def last_cells(notes: Notes) -> Iterator[Step]:
    """A house with one open cell."""
    for house in notes.full:
        open_cells = notes.sets[house] & notes.open
        if is_single(open_cells):
            missing = notes.unplaced(house)
            cell = highest(open_cells)
            if is_single(missing) and notes.pencil[cell] & missing:
                because = Because(house.cells, missing, (house,))
                yield Step(Technique.LAST_CELL, because, ((cell, highest(missing)),))


def hidden_singles(notes: Notes) -> Iterator[Step]:
    """A digit with one cell left in a house."""
    for house in notes.full:
        for digit in digits_of(notes.unplaced(house)):
            spots = notes.spots(digit, house)
            if is_single(spots):
                because = Because(house.cells, bit(digit), (house,))
                yield Step(Technique.HIDDEN_SINGLE, because, ((highest(spots), digit),))


def naked_singles(notes: Notes) -> Iterator[Step]:
    """A cell with one candidate left."""
    for cell in cells_of(notes.open):
        mask = notes.pencil[cell]
        if is_single(mask):
            because = Because((cell,), mask)
            yield Step(Technique.NAKED_SINGLE, because, ((cell, highest(mask)),))
