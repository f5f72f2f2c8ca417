"""Naked and hidden pairs, triples and quads."""

from collections.abc import Callable, Iterator
from itertools import combinations
from typing import Final, TypeAlias

from verify.pencil import bit, digits_of
from verify.walk.facts.cells import cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, House, Step, Technique

Finder: TypeAlias = Callable[[Notes], Iterator[Step]]

MOST_CELLS: Final = 16
"""Open cells of a house past which nobody looks for triples and quads by eye."""

NAKED: Final = {
    2: Technique.NAKED_PAIR,
    3: Technique.NAKED_TRIPLE,
    4: Technique.NAKED_QUAD,
}
HIDDEN: Final = {
    2: Technique.HIDDEN_PAIR,
    3: Technique.HIDDEN_TRIPLE,
    4: Technique.HIDDEN_QUAD,
}


def naked(size: int) -> Finder:
    """So many cells that see each other and hold so many digits between them."""

    def find(notes: Notes) -> Iterator[Step]:
        # Cells with one candidate are placed by now, so that the marks tell which cells are open.
        for index, house in enumerate(notes.houses):
            marks = notes.marks(house.cells)
            yield from notes.if_changed(("naked", size, index), marks, _naked(notes, house, size))

    return find


def _naked(notes: Notes, house: House, size: int) -> Iterator[Step]:
    pencil = notes.pencil
    fitting = [
        cell
        for cell in cells_of(notes.sets[house] & notes.open)
        if pencil[cell].bit_count() <= size
    ]
    if size > 2 and len(fitting) > MOST_CELLS:
        return
    for cells in combinations(fitting, size):
        mask = 0
        for cell in cells:
            mask |= pencil[cell]
        if mask.bit_count() != size:
            continue
        others = (cell for cell in house.cells if cell not in cells)
        removes = notes.fresh((cell, mask) for cell in others)
        if removes:
            yield Step(NAKED[size], Because(cells, mask, (house,)), removes=removes)


def hidden(size: int) -> Finder:
    """So many digits that have so many cells between them in a house."""

    def find(notes: Notes) -> Iterator[Step]:
        for index, house in enumerate(notes.full):
            marks = notes.marks(house.cells)
            yield from notes.if_changed(("hidden", size, index), marks, _hidden(notes, house, size))

    return find


def _hidden(notes: Notes, house: House, size: int) -> Iterator[Step]:
    inside = notes.sets[house]
    spots = {digit: notes.where[digit] & inside for digit in digits_of(notes.unplaced(house))}
    few = [digit for digit, where in spots.items() if 0 < where.bit_count() <= size]
    if size > 2 and len(few) > MOST_CELLS:
        return
    for digits in combinations(few, size):
        cells = 0
        for digit in digits:
            cells |= spots[digit]
        if cells.bit_count() != size:
            continue
        mask = sum(map(bit, digits))
        removes = notes.fresh((cell, ~mask) for cell in cells_of(cells))
        if removes:
            yield Step(HIDDEN[size], Because(house.cells, mask, (house,)), removes=removes)
