"""The order of a whole board within one house: how much must still fit above or below a cell.

Whatever shapes make cells larger than one cell, forks and several shapes together: those of
them that stand in one house hold different digits, all of them larger.
"""

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import TypeAlias

from verify.board import Cell
from verify.pencil import Mask, at_most, digits_of
from verify.rules.arrow import Arrow
from verify.rules.extremes import Extreme
from verify.rules.greater import Greater
from verify.rules.outside_arrow import OutsideArrow
from verify.rules.thermometer import Thermometer
from verify.rules.zipper import Zipper
from verify.walk.cells import cells_of, set_of
from verify.walk.notes import Notes
from verify.walk.step import Because, House, Link, Step, Technique

Beyond: TypeAlias = Mapping[Cell, Mapping[Cell, tuple[Link, ...]]]
"""For each cell, the cells that are larger (or smaller), each with the marks that say so."""


def order(notes: Notes) -> Iterator[Step]:
    """Digits of a cell that leave the larger, or smaller, cells of a house too little room."""
    rising = _closure(_rises(notes))
    for beyond, upwards in ((rising, True), (_turned(rising), False)):
        for cell in cells_of(notes.open):
            others = beyond.get(cell, {})
            there = set_of(others)
            for house, cells in notes.sets.items():
                if (cells & there).bit_count() > 1:
                    step = _of_house(notes, cell, others, house, upwards)
                    if step is not None:
                        yield step


def _rises(notes: Notes) -> dict[Cell, dict[Cell, tuple[Link, ...]]]:
    """For each cell, the cells that one mark makes larger."""
    rises: dict[Cell, dict[Cell, tuple[Link, ...]]] = {}
    for link in notes.links:
        for low, high in _pairs(link):
            rises.setdefault(low, {}).setdefault(high, (link,))
    return rises


def _pairs(link: Link) -> Iterator[tuple[Cell, Cell]]:
    """The pairs of a smaller and a larger cell that a mark tells of."""
    constraint = link.constraint
    if isinstance(constraint, Thermometer):
        yield from pairwise(constraint.cells)
    elif isinstance(constraint, OutsideArrow):
        yield from pairwise(constraint.cells[:: 1 if constraint.rises else -1])
    elif isinstance(constraint, Greater):
        larger, smaller = constraint.cells
        yield smaller, larger
    elif isinstance(constraint, Extreme):
        first, *others = constraint.cells
        yield from ((first, other) if constraint.least else (other, first) for other in others)
    elif isinstance(constraint, Zipper):
        middle = constraint.cells[len(constraint.cells) // 2]
        yield from ((tooth, middle) for tooth in constraint.cells if tooth != middle)
    elif isinstance(constraint, Arrow) and len(constraint.total) == 1 < len(constraint.shaft):
        yield from ((cell, constraint.total[0]) for cell in constraint.shaft)


def _closure(rises: dict[Cell, dict[Cell, tuple[Link, ...]]]) -> Beyond:
    """The same over any number of marks."""
    closed: dict[Cell, dict[Cell, tuple[Link, ...]]] = {}
    for start in rises:
        found: dict[Cell, tuple[Link, ...]] = {}
        waiting: list[tuple[Cell, tuple[Link, ...]]] = [(start, ())]
        while waiting:
            cell, links = waiting.pop(0)
            for above, by in rises.get(cell, {}).items():
                if above not in found:
                    found[above] = tuple(dict.fromkeys((*links, *by)))
                    waiting.append((above, found[above]))
        closed[start] = found
    return closed


def _turned(beyond: Beyond) -> Beyond:
    """From larger cells to smaller ones."""
    turned: dict[Cell, dict[Cell, tuple[Link, ...]]] = {}
    for cell, others in beyond.items():
        for other, links in others.items():
            turned.setdefault(other, {})[cell] = links
    return turned


def _of_house(
    notes: Notes,
    cell: Cell,
    others: Mapping[Cell, tuple[Link, ...]],
    house: House,
    upwards: bool,
) -> Step | None:
    """What leaves a cell because of the cells of one house that are beyond it."""
    beyond = [other for other in house.cells if other in others]
    struck = sum(
        1 << digit
        for digit in digits_of(notes.pencil[cell])
        if not _fit([notes.pencil[other] & _past(digit, upwards) for other in beyond])
    )
    if not struck:
        return None
    links = tuple(dict.fromkeys(link for other in beyond for link in others[other]))
    because = Because(tuple(sorted((cell, *beyond))), 0, (house,), links)
    return Step(Technique.ORDER, because, removes=((cell, struck),), rule=links[0].rule)


def _past(digit: int, upwards: bool) -> Mask:
    """The digits beyond one."""
    return ~at_most(digit) if upwards else at_most(digit - 1)


def _fit(masks: list[Mask]) -> bool:
    """Whether each of some cells can take a digit of its own (augmenting paths)."""
    holder: dict[int, int] = {}

    def seat(index: int, tried: set[int]) -> bool:
        for digit in digits_of(masks[index]):
            if digit not in tried:
                tried.add(digit)
                if digit not in holder or seat(holder[digit], tried):
                    holder[digit] = index
                    return True
        return False

    return all(seat(index, set()) for index in range(len(masks)))
