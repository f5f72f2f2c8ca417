"""Either way: all places of a digit, or all digits of a cell, lead to the same."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import reduce
from typing import Final

from verify.board import Cell
from verify.pencil import Mask, bit, digits_of, every_digit
from verify.walk.facts.arrays import Masks
from verify.walk.facts.cells import Candidate, cells_of
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, House, Step, Technique, unexplained
from verify.walk.suppose.grounds import Grounds
from verify.walk.suppose.supposing import Supposition
from verify.walk.suppose.trial import Trial

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
    """What follows whichever way is right, where it takes the fewest rounds.

    Ways that fail are no ways.
    """
    forks = [*_of_cells(notes), *_of_houses(notes)]
    ways = tuple(dict.fromkeys(way for fork in forks for way in fork.ways))
    numbers = {way: number for number, way in enumerate(ways)}
    trial = Trial.of(notes, ways)
    refuted: set[int] = set()
    for rounds in range(1, ROUNDS + 1):
        if not trial.moving:
            return
        refuted.update(trial.advance())
        open_forks = [
            fork for fork in forks if all(numbers[way] not in refuted for way in fork.ways)
        ]
        lost = _lost(notes, trial.sheets)
        found = [(fork, *each) for fork in open_forks for each in _lost_on_all(fork, lost, numbers)]
        if found:
            tell = _Telling(notes, rounds)
            yield from (tell.step(*each) for each in found)
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


def _lost(notes: Notes, sheets: Masks) -> Masks:
    """What each cell (columns) has lost on each sheet (rows)."""
    import numpy

    return numpy.array(notes.pencil, numpy.uint32) & ~sheets


def _lost_on_all(
    fork: Fork, lost: Masks, numbers: Mapping[Candidate, int]
) -> Iterator[tuple[Cell, Mask]]:
    import numpy

    on_all = numpy.bitwise_and.reduce(lost[[numbers[way] for way in fork.ways]], axis=0)
    for cell in numpy.flatnonzero(on_all).tolist():
        yield cell, int(on_all[cell])


class _Telling:
    """Steps with their reasons, after some rounds; each way is followed once."""

    def __init__(self, notes: Notes, rounds: int) -> None:
        self._notes = notes
        self._rounds = rounds
        self._followed: dict[Candidate, Supposition] = {}

    def step(self, fork: Fork, cell: Cell, mask: Mask) -> Step:
        """The step that takes some digits from a cell."""
        if not self._notes.reasons:
            return unexplained(Technique.EITHER_WAY, cell, mask, self._rounds)
        step = _step(fork, [self._follow(way) for way in fork.ways], cell, mask)
        return replace(step, depth=self._rounds)

    def _follow(self, way: Candidate) -> Supposition:
        supposed = self._followed.get(way)
        if supposed is None:
            supposed = self._followed[way] = Supposition(self._notes, *way)
            for _ in range(self._rounds):
                if supposed.moving:
                    supposed.advance()
        return supposed


def _step(fork: Fork, ways: list[Supposition], cell: Cell, mask: Mask) -> Step:
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
        counts=_counts(fork, ways[0], traced),
    )


def _counts(fork: Fork, way: Supposition, traced: list[Grounds]) -> tuple[tuple[Cell, Mask], ...]:
    """All that must be missing: for each way to lead so, and for there to be no other way."""
    every = every_digit(way.notes.digits)
    if fork.house:
        places = {cell for cell, _ in fork.ways}
        others = [(cell, bit(way.digit)) for cell in fork.house.cells if cell not in places]
    else:
        others = [(way.cell, every & ~way.start[way.cell])]
    found: dict[Cell, Mask] = {}
    for cell, mask in (*others, *(each for grounds in traced for each in grounds.counts)):
        found[cell] = found.get(cell, 0) | mask
    return tuple(sorted((cell, mask) for cell, mask in found.items() if mask))
