"""Arrangements: a mark worked by listing the ways to fill it, with the houses that it crosses."""

from collections.abc import Iterator

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, is_single
from verify.rules.apart import Apart
from verify.walk.cells import cells_of, set_of
from verify.walk.little import Little
from verify.walk.notes import Notes
from verify.walk.step import Because, House, Link, Step, Technique


def arrangements(notes: Notes) -> Iterator[Step]:
    """Candidates that stand in no arrangement, and digits that every arrangement holds.

    Marks that only keep cells apart have no arrangements of their own: pairs and triples see more.
    """
    for link in notes.links:
        constraint = link.constraint
        if isinstance(constraint, Apart):
            continue
        before = tuple(notes.pencil[cell] for cell in constraint.cells)
        if len(before) < 2 or all(map(is_single, before)) or notes.listed.get(link) == before:
            continue
        steps = list(_of_mark(notes, link))
        if not steps:
            notes.listed[link] = before
        yield from steps


def _of_mark(notes: Notes, link: Link) -> Iterator[Step]:
    inside = set_of(link.constraint.cells)
    houses = [house for house in notes.houses if (notes.sets[house] & inside).bit_count() > 1]
    little = Little(notes.digits, notes.pencil, link.constraint, houses)
    try:
        own = _own(notes, link, little)
        if own is not None:
            yield own
        for house in houses:
            if house.full:
                yield from _beyond(notes, link, little, house)
    finally:
        little.close()


def _own(notes: Notes, link: Link, little: Little) -> Step | None:
    """What leaves the mark's own cells."""
    removes: dict[Cell, Mask] = {}
    needed: dict[House, None] = {}
    for cell in sorted(link.constraint.cells):
        if is_single(notes.pencil[cell]):
            continue
        for digit in digits_of(notes.pencil[cell]):
            houses = little.without(cell, digit)
            if houses is not None:
                removes[cell] = removes.get(cell, 0) | bit(digit)
                needed.update(dict.fromkeys(houses))
    if not removes:
        return None
    cells = tuple(sorted(link.constraint.cells))
    because = Because(cells, 0, tuple(needed), (link,))
    return Step(Technique.ARRANGEMENTS, because, removes=tuple(removes.items()), rule=link.rule)


def _beyond(notes: Notes, link: Link, little: Little, house: House) -> Iterator[Step]:
    """Digits that the mark needs within a house leave the rest of the house."""
    inside = [cell for cell in house.cells if cell in link.constraint.cells]
    within = set_of(inside)
    for digit in digits_of(notes.unplaced(house)):
        outside = notes.spots(digit, house) & ~within
        if not outside or not notes.spots(digit, house) & within:
            continue
        houses = little.nowhere(inside, digit)
        if houses is None:
            continue
        cells = tuple(sorted(link.constraint.cells))
        every = tuple(dict.fromkeys((house, *houses)))
        because = Because(cells, bit(digit), every, (link,))
        removes = tuple((cell, bit(digit)) for cell in cells_of(outside))
        yield Step(Technique.ARRANGEMENTS, because, removes=removes, rule=link.rule)
