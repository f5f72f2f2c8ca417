"""Placements: the last cell of a house, the only cell for a digit, the only digit for a cell."""

from collections.abc import Iterator

from verify.pencil import bit, digits_of, highest, is_single
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique


def last_cells(notes: Notes) -> Iterator[Step]:
    """A house with one open cell."""
    still_open = notes.open
    for house, cells in notes.full_sets:
        open_cells = cells & still_open
        if is_single(open_cells):
            missing = notes.unplaced(house)
            cell = highest(open_cells)
            if is_single(missing) and notes.pencil[cell] & missing:
                because = Because(house.cells, missing, (house,))
                yield Step(Technique.LAST_CELL, because, ((cell, highest(missing)),))


def hidden_singles(notes: Notes) -> Iterator[Step]:
    """A digit with one cell left in a house."""
    still_open, pencil = notes.open, notes.pencil
    for house, cells in notes.full_sets:
        if not cells & still_open:
            continue
        once = twice = 0
        for cell in house.cells:
            twice |= once & pencil[cell]
            once |= pencil[cell]
        for digit in digits_of(once & ~twice):
            spots = notes.where[digit] & cells
            if spots & still_open:
                because = Because(house.cells, bit(digit), (house,))
                yield Step(Technique.HIDDEN_SINGLE, because, ((highest(spots), digit),))


def naked_singles(notes: Notes) -> Iterator[Step]:
    """A cell with one candidate left."""
    still_open = notes.open
    for cell, mask in enumerate(notes.pencil):
        if is_single(mask) and still_open >> cell & 1:
            because = Because((cell,), mask)
            yield Step(Technique.NAKED_SINGLE, because, ((cell, highest(mask)),))
