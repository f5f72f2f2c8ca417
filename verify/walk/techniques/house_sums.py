"""House sums: whole houses less the sums that marks state, by what is left over."""

from collections.abc import Iterator
from functools import reduce
from operator import or_
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, Pencil, bit, is_single
from verify.rules.workings.caged import fitting_sets
from verify.rules.workings.sums import digit_sets
from verify.walk.facts.cells import set_of
from verify.walk.facts.equations import LeftOver, ways_to_sum
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique

MOST_OPEN: Final = 4
"""Open cells left over whose digits a solver would still list one by one."""


def house_sums(notes: Notes) -> Iterator[Step]:
    """What the cells that no sum covers must sum to."""
    for index, left in enumerate(notes.left_overs):
        marks = notes.marks(cell for cell, _ in left.terms)
        if not all(map(is_single, marks)):
            yield from notes.if_changed(("house sum", index), marks, _of_left_over(notes, left))


def _of_left_over(notes: Notes, left: LeftOver) -> Iterator[Step]:
    """What leaves the cells left over, if there are few enough of them."""
    at = [cell for cell, _ in left.terms]
    if sum(notes.open >> cell & 1 for cell in at) <= MOST_OPEN:
        kept = _ways(notes, left)
    elif _is_cage(notes, left):
        kept = as_cage(at, left.total, notes.digits, notes.pencil)
    else:
        return
    removes = notes.fresh((cell, ~mask) for cell, mask in kept.items())
    if not removes:
        return
    sights, links = notes.sights(at, at)
    every = tuple(dict.fromkeys((*left.houses, *sights)))
    because = Because(tuple(sorted(at)), 0, every, (*left.links, *links))
    rule = left.links[0].rule
    yield Step(Technique.HOUSE_SUM, because, removes=removes, rule=rule, summed=left.houses)


def _is_cage(notes: Notes, left: LeftOver) -> bool:
    """Whether all that is left sums like a cage: every cell once, and all of them differ."""
    together = set_of(cell for cell, _ in left.terms)
    return all(weight == 1 for _, weight in left.terms) and all(
        not together & ~notes.peers[cell] & ~(1 << cell) for cell, _ in left.terms
    )


def as_cage(cells: list[Cell], total: int, digits: int, pencil: Pencil) -> dict[Cell, Mask]:
    """For each of some cells that differ, its digits that are in some set with the sum."""
    sets = digit_sets(len(cells), total, digits)
    if sets is None:
        return {}
    together = reduce(or_, fitting_sets(sets, cells, pencil), 0)
    return {cell: pencil[cell] & together for cell in cells}


def _ways(notes: Notes, left: LeftOver) -> dict[Cell, Mask]:
    """For each cell the digits that it has in some way to make the total."""
    kept = dict.fromkeys((cell for cell, _ in left.terms), 0)
    for way in ways_to_sum(left.terms, left.total, notes.pencil, notes.peers):
        notes.deadline.check()
        for cell, digit in zip(kept, way, strict=True):
            kept[cell] |= bit(digit)
    return kept
