"""Locked candidates: wherever a digit goes in a house, some cell outside sees it."""

from collections.abc import Iterator

from verify.pencil import bit
from verify.walk.facts.cells import cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique


def locked(notes: Notes) -> Iterator[Step]:
    """The digit leaves every cell that sees all its places in a house."""
    for digit in range(1, notes.digits + 1):
        yield from notes.if_changed(("locked", digit), notes.where[digit], _of_digit(notes, digit))


def _of_digit(notes: Notes, digit: int) -> Iterator[Step]:
    where = notes.where[digit]
    for house, cells in notes.full_sets:
        spots = where & cells
        struck = notes.seeing_all(spots, where & ~cells) if spots else 0
        if struck:
            houses, links = notes.sights(cells_of(struck), cells_of(spots))
            because = Because(house.cells, bit(digit), (house, *houses), links)
            removes = tuple((cell, bit(digit)) for cell in cells_of(struck))
            yield Step(Technique.LOCKED, because, removes=removes)
