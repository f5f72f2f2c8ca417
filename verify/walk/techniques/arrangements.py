"""Arrangements: a mark worked by listing the ways to fill it, with the houses that it crosses."""

from collections.abc import Iterator, Sequence
from functools import reduce
from operator import or_

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, is_single
from verify.walk.facts.cells import Cells, cells_of, set_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, House, Link, Step, Technique
from verify.walk.ways.arrangers import Arranger, arrangers_of
from verify.walk.ways.strikers import strikers_of


def arrangements(notes: Notes) -> Iterator[Step]:
    """Candidates that stand in no arrangement, and digits that every arrangement holds."""
    strikers_of(notes).refresh()
    for index, link in enumerate(notes.links):
        marks = notes.marks(link.constraint.cells)
        if len(marks) < 2 or all(map(is_single, marks)):
            continue
        yield from notes.if_changed(("arrangements", index), marks, _of_mark(notes, link))


def _of_mark(notes: Notes, link: Link) -> Iterator[Step]:
    inside = set_of(link.constraint.cells)
    houses = [house for house in notes.houses if (notes.sets[house] & inside).bit_count() > 1]
    full = [house for house in houses if house.full]
    own, beyond = _in_question(notes, link, full)
    if not own and not any(beyond.values()):
        return
    arranger = arrangers_of(notes).of(link, houses)
    step = _own(notes, link, arranger, own)
    if step is not None:
        yield step
    asked = [(notes.sets[house] & inside, digits) for house, digits in beyond.items()]
    needed = arranger.may_be_needed(asked, notes.pencil)
    for house, digits in zip(beyond, needed, strict=True):
        yield from _beyond(notes, link, arranger, house, digits)


def _in_question(
    notes: Notes, link: Link, houses: Sequence[House]
) -> tuple[dict[Cell, Mask], dict[House, Mask]]:
    """The candidates of a mark that may have no arrangement, and the digits of each house that
    all arrangements may hold: all of them, or those that a list of its ways leaves in question.
    """
    listed = strikers_of(notes).whole.get(link)
    cells = sorted(set(link.constraint.cells))
    if listed is not None:
        own = {cell: mask for each in listed.strikes(notes.pencil) for cell, mask in each.removes}
    else:
        own = {cell: notes.pencil[cell] for cell in cells if not is_single(notes.pencil[cell])}
    beyond = {}
    for house in houses:
        within = notes.sets[house] & set_of(cells)
        held, outside = _digits(notes, within), _digits(notes, notes.sets[house] & ~within)
        digits = notes.unplaced(house) & held & outside
        if digits and listed is not None:
            digits &= listed.always(notes.pencil, tuple(cells_of(within)))
        beyond[house] = digits
    return own, beyond


def _digits(notes: Notes, cells: Cells) -> Mask:
    """All that some cells hold."""
    return reduce(or_, (notes.pencil[cell] for cell in cells_of(cells)), 0)


def _own(notes: Notes, link: Link, arranger: Arranger, own: dict[Cell, Mask]) -> Step | None:
    """What leaves the mark's own cells."""
    standing = arranger.standing(notes.pencil)
    removes: dict[Cell, Mask] = {}
    needed: dict[House, None] = {}
    for cell, mask in own.items():
        for digit in digits_of(mask & ~standing[cell]):
            houses = arranger.without(cell, digit, notes.pencil)
            if houses is not None:
                removes[cell] = removes.get(cell, 0) | bit(digit)
                needed.update(dict.fromkeys(houses))
    if not removes:
        return None
    cells = tuple(sorted(link.constraint.cells))
    because = Because(cells, 0, tuple(needed), (link,))
    return Step(Technique.ARRANGEMENTS, because, removes=tuple(removes.items()), rule=link.rule)


def _beyond(
    notes: Notes, link: Link, arranger: Arranger, house: House, digits: Mask
) -> Iterator[Step]:
    """Digits that the mark needs within a house leave the rest of the house."""
    inside = [cell for cell in house.cells if cell in link.constraint.cells]
    within = set_of(inside)
    for digit in digits_of(digits):
        houses = arranger.nowhere(inside, digit, notes.pencil)
        if houses is None:
            continue
        cells = tuple(sorted(link.constraint.cells))
        every = tuple(dict.fromkeys((house, *houses)))
        because = Because(cells, bit(digit), every, (link,))
        outside = notes.spots(digit, house) & ~within
        removes = tuple((cell, bit(digit)) for cell in cells_of(outside))
        yield Step(Technique.ARRANGEMENTS, because, removes=removes, rule=link.rule)
