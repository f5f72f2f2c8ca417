"""Locked candidates: wherever a digit goes in a house, some cell outside sees it."""

from collections.abc import Iterator

from verify.pencil import bit, digits_of
from verify.walk.cells import cells_of
from verify.walk.notes import Notes
from verify.walk.step import Because, Step, Technique


def locked(notes: Notes) -> Iterator[Step]:
    """The digit leaves every cell that sees all its places in a house."""
    for house in notes.full:
        for digit in digits_of(notes.unplaced(house)):
            spots = notes.spots(digit, house)
            if not spots:
                continue
            struck = notes.common_peers(spots) & notes.where[digit] & ~notes.sets[house]
            if struck:
                houses, links = notes.sights(cells_of(struck), cells_of(spots))
                because = Because(house.cells, bit(digit), (house, *houses), links)
                removes = tuple((cell, bit(digit)) for cell in cells_of(struck))
                yield Step(Technique.LOCKED, because, removes=removes)
