"""Naked and hidden pairs, triples and quads."""

from collections.abc import Callable, Iterator
from functools import reduce
from itertools import combinations
from operator import or_
from typing import Final, TypeAlias

from verify.pencil import bit, digits_of
from verify.walk.cells import cells_of
from verify.walk.notes import Notes
from verify.walk.step import Because, Step, Technique

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
        for house in notes.houses:
            fitting = [
                cell
                for cell in cells_of(notes.sets[house] & notes.open)
                if notes.pencil[cell].bit_count() <= size
            ]
            if size > 2 and len(fitting) > MOST_CELLS:
                continue
            for cells in combinations(fitting, size):
                mask = reduce(or_, (notes.pencil[cell] for cell in cells))
                if mask.bit_count() != size:
                    continue
                others = (cell for cell in house.cells if cell not in cells)
                removes = notes.fresh((cell, mask) for cell in others)
                if removes:
                    yield Step(NAKED[size], Because(cells, mask, (house,)), removes=removes)

    return find


def hidden(size: int) -> Finder:
    """So many digits that have so many cells between them in a house."""

    def find(notes: Notes) -> Iterator[Step]:
        for house in notes.full:
            spots = {digit: notes.spots(digit, house) for digit in digits_of(notes.unplaced(house))}
            few = [digit for digit, where in spots.items() if 0 < where.bit_count() <= size]
            if size > 2 and len(few) > MOST_CELLS:
                continue
            for digits in combinations(few, size):
                cells = reduce(or_, (spots[digit] for digit in digits))
                if cells.bit_count() != size:
                    continue
                mask = sum(map(bit, digits))
                removes = notes.fresh((cell, ~mask) for cell in cells_of(cells))
                if removes:
                    because = Because(house.cells, mask, (house,))
                    yield Step(HIDDEN[size], because, removes=removes)

    return find
