"""Either way: all places of a digit, or all digits of a cell, lead to the same."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce
from operator import and_
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of
from verify.walk.cells import Candidate, cells_of
from verify.walk.grounds import Grounds
from verify.walk.notes import Notes
from verify.walk.step import Because, House, Step, Technique
from verify.walk.supposing import Supposition

ROUNDS: Final = 4
"""Rounds of consequences that a solver follows on several ways side by side."""

MOST_WAYS: Final = 3
"""Digits of a cell that are tried one by one."""


@dataclass(frozen=True, slots=True)
class Fork:
    """Candidates of which one holds: those of a cell, or the two places of a digit in a house."""

    ways: tuple[Candidate, ...]
    house: House | None = None


def either_way(notes: Notes) -> Iterator[Step]:
    """What follows whichever way is right, where it takes the fewest rounds."""
    forks = [*_of_cells(notes), *_of_houses(notes)]
    needed = dict.fromkeys(way for fork in forks for way in fork.ways)
    supposed = {way: Supposition(notes, *way) for way in needed}
    for _ in range(ROUNDS):
        for each in supposed.values():
            if each.moving:
                each.advance()
        steps = [step for fork in forks for step in _of_fork(notes, fork, supposed)]
        if steps:
            yield from steps
            return


def _of_cells(notes: Notes) -> Iterator[Fork]:
    for cell in cells_of(notes.open):
        if 1 < notes.pencil[cell].bit_count() <= MOST_WAYS:
            yield Fork(tuple((cell, digit) for digit in digits_of(notes.pencil[cell])))


def _of_houses(notes: Notes) -> Iterator[Fork]:
    for house in notes.full:
        for digit in digits_of(notes.unplaced(house)):
            spots = notes.spots(digit, house)
            if spots.bit_count() == 2:
                yield Fork(tuple((cell, digit) for cell in cells_of(spots)), house)


def _of_fork(notes: Notes, fork: Fork, supposed: dict[Candidate, Supposition]) -> Iterator[Step]:
    """A step for each cell that loses something on every way; ways that fail are no ways."""
    ways = [supposed[way] for way in fork.ways]
    if any(way.conflicts for way in ways):
        return
    for cell, mask in _lost_on_all(ways):
        yield _step(notes, fork, ways, cell, mask)


def _lost_on_all(ways: list[Supposition]) -> Iterator[tuple[Cell, Mask]]:
    lost: dict[Cell, Mask] = {}
    for cell, digit in sorted(reduce(and_, (way.gone.keys() for way in ways))):
        lost[cell] = lost.get(cell, 0) | bit(digit)
    yield from lost.items()


def _step(notes: Notes, fork: Fork, ways: list[Supposition], cell: Cell, mask: Mask) -> Step:
    traced = [Grounds(way) for way in ways]
    for grounds in traced:
        for digit in digits_of(mask):
            grounds.of_removed(cell, digit)
    house = (fork.house,) if fork.house else ()
    cells = {cell for part in (*traced, *house) for cell in part.cells}
    houses = dict.fromkeys((*house, *(each for grounds in traced for each in grounds.houses)))
    links = dict.fromkeys(each for grounds in traced for each in grounds.links)
    digits = reduce(lambda mask, way: mask | bit(way[1]), fork.ways, 0)
    return Step(
        Technique.EITHER_WAY,
        Because(tuple(sorted(cells)), digits, tuple(houses), tuple(links)),
        removes=((cell, mask),),
        ways=tuple(grounds.chain for grounds in traced),
    )
