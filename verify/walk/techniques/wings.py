"""Wings: a pivot with two or three candidates, and two cells that it sees."""

from collections.abc import Iterator
from itertools import combinations

from verify.board import Cell
from verify.pencil import Mask, is_single
from verify.walk.facts.cells import cells_of, set_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique


def wings(notes: Notes) -> Iterator[Step]:
    """Whichever digit the pivot takes, one of the cells holds the digit that they share."""
    pencil = notes.pencil
    pairs = set_of(cell for cell in cells_of(notes.open) if pencil[cell].bit_count() == 2)
    for pivot in cells_of(notes.open):
        notes.deadline.check()
        mask = pencil[pivot]
        if mask.bit_count() not in (2, 3):
            continue
        seen = [cell for cell in cells_of(pairs & notes.peers[pivot]) if pencil[cell] & mask]
        for one, other in combinations(seen, 2):
            shared = pencil[one] & pencil[other]
            if is_single(shared) and _is_wing(notes, mask, one, other, shared):
                yield from _step(notes, pivot, one, other, shared)


def _is_wing(notes: Notes, mask: Mask, one: Cell, other: Cell, shared: Mask) -> bool:
    """Whether each digit of the pivot but the shared one is in one of the two cells."""
    beside = notes.pencil[one] ^ notes.pencil[other]
    return beside == mask & ~shared and (mask.bit_count() == 2) == (not mask & shared)


def _step(notes: Notes, pivot: Cell, one: Cell, other: Cell, shared: Mask) -> Iterator[Step]:
    holders = (one, other) if not notes.pencil[pivot] & shared else (one, other, pivot)
    digit = shared.bit_length() - 1
    struck = notes.seeing_all(set_of(holders), notes.where[digit])
    if not struck:
        return
    houses, links = notes.sights((pivot,), (one, other))
    more_houses, more_links = notes.sights(cells_of(struck), holders)
    because = Because(
        (pivot, one, other),
        shared,
        tuple(dict.fromkeys((*houses, *more_houses))),
        tuple(dict.fromkeys((*links, *more_links))),
    )
    yield Step(Technique.WING, because, removes=tuple((cell, shared) for cell in cells_of(struck)))
