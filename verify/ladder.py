"""A ladder: one puzzle with more or fewer givens, from the calmest rung to the stiffest.

By grade, the stiffest rung comes first: the puzzle itself, or with givens taken away where it is
too easy. From there digits of the answer are given back, one at a time, where the walk is
tightest, until the next band is reached. By givens, the puzzle itself is the stiffest, and each
rung before it has so many more. Either way every rung holds the givens of all that are stiffer.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random
from typing import Final

from verify.board import Cell
from verify.budget import NEVER, BudgetSpent, Deadline
from verify.pencil import Grid
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.walk.facts.step import cells_touched
from verify.walk.report.grade import EFFORT, GRADED, Band, Grade, grade
from verify.walk.walk import Walk, walk

ORDERS: Final = 6
"""Orders in which givens are tried to be taken away."""

CLOSE_LOOK: Final = 30
"""Cells of which each is tried, where the first overshoots: those of the tightest place first."""


class NoSuchRung(Exception):  # noqa: N818 - what a puzzle can't be
    """A puzzle that is never `wanted`, however many givens it has; `near` is what it can be."""

    def __init__(self, wanted: Band, *near: Band) -> None:
        self.wanted, self.near = wanted, near
        super().__init__(f"not {wanted.value}, but {' or '.join(band.value for band in near)}")


class TooFewOpen(Exception):  # noqa: N818 - what a puzzle has too little of
    """A puzzle with too few open cells to give so many digits back; `there_are` counts them."""

    def __init__(self, there_are: int) -> None:
        self.there_are = there_are
        super().__init__(f"there are {there_are}")


@dataclass(frozen=True, slots=True)
class Rung:
    """The puzzle with the givens of one rung, and how hard it is then."""

    puzzle: Puzzle
    walk: Walk
    grade: Grade

    @property
    def rank(self) -> int:
        """The place of its band among all; ungraded comes last."""
        return _rank(self.grade.band)


def ladder(
    puzzle: Puzzle, answer: Grid, bands: Sequence[Band], deadline: Deadline = NEVER
) -> tuple[Rung, ...]:
    """A rung for each band, in their order; `bands` go from easy to hard.

    The puzzle must have that one answer, and so has every rung. Raises NoSuchRung, and BudgetSpent
    after the deadline.
    """
    whole = replace(puzzle, answer=tuple(answer))
    rung = _stiff_enough(_rung(whole, deadline), bands[-1], deadline)
    rungs: list[Rung] = []
    for band in reversed(bands):
        rung = _eased(rung, answer, band, deadline)
        rungs.append(rung)
    return tuple(reversed(rungs))


def ladder_by_givens(
    puzzle: Puzzle, answer: Grid, rungs: int, step: int, deadline: Deadline = NEVER
) -> tuple[Puzzle, ...]:
    """So many rungs, each with `step` givens more than the next; the puzzle is the last of them.

    Digits are given back where the walk is tightest. The puzzle must have that one answer, and so
    has every rung. Raises TooFewOpen where the first rung would have no open cell, and BudgetSpent
    after the deadline.
    """
    open_cells = puzzle.givens.count(0)
    if step * (rungs - 1) >= open_cells:
        raise TooFewOpen(open_cells)
    found = [replace(puzzle, answer=tuple(answer))]
    while len(found) < rungs:
        eased = found[-1]
        for _ in range(step):
            cell = _tight_cells(_rung(eased, deadline))[0]
            eased = _with(eased, cell, answer[cell])
        found.append(eased)
    return tuple(reversed(found))


def _rung(puzzle: Puzzle, deadline: Deadline) -> Rung:
    path = walk(puzzle, reasons=False, deadline=deadline)
    if path.cut_short:
        raise BudgetSpent
    return Rung(puzzle, path, grade(path))


def _rank(band: Band) -> int:
    return (*GRADED, Band.UNGRADED).index(band)


def _stiff_enough(rung: Rung, band: Band, deadline: Deadline) -> Rung:
    """The puzzle, or with as many givens taken away as it takes. Raises NoSuchRung."""
    stiffest = rung
    for seed in range(ORDERS if rung.rank < _rank(band) else 0):
        chance = Random(seed)  # noqa: S311 - the same ladder each time
        found = _stripped(rung, band, chance, deadline)
        stiffest = max(stiffest, found, key=lambda each: each.rank)
        if found.rank == _rank(band):
            return found
    if stiffest.rank < _rank(band):
        raise NoSuchRung(band, stiffest.grade.band)
    return stiffest


def _stripped(rung: Rung, band: Band, chance: Random, deadline: Deadline) -> Rung:
    """Givens taken away in some order until the band is reached or none can be spared."""
    order = [cell for cell, digit in enumerate(rung.puzzle.givens) if digit]
    chance.shuffle(order)
    for cell in order:
        if rung.rank >= _rank(band):
            break
        fewer = _with(rung.puzzle, cell, 0)
        deadline.check()
        if prove(fewer, deadline=deadline).printable:
            rung = _rung(fewer, deadline)
    return rung


def _eased(rung: Rung, answer: Grid, band: Band, deadline: Deadline) -> Rung:
    """Digits given back until the band is reached. Raises NoSuchRung where it is leapt over."""
    while rung.rank > _rank(band):
        eased = _one_given_back(rung, answer, band, deadline)
        if eased.rank < _rank(band):
            raise NoSuchRung(band, eased.grade.band, rung.grade.band)
        rung = eased
    return rung


def _one_given_back(rung: Rung, answer: Grid, band: Band, deadline: Deadline) -> Rung:
    """The first tight cell's digit given back; another's where that leaps over the band."""
    eased = rung
    for cell in _tight_cells(rung)[:CLOSE_LOOK]:
        eased = _rung(_with(rung.puzzle, cell, answer[cell]), deadline)
        if eased.rank >= _rank(band):
            break
    return eased


def _tight_cells(rung: Rung) -> list[Cell]:
    """The open cells, those of the tightest place first: the hardest round with the fewest ways.

    Where the walk does not reach the answer, the cells with the fewest digits left at its end.
    """
    if not rung.walk.finished:
        pencil, givens = rung.walk.pencil, rung.puzzle.givens
        left = [cell for cell in rung.puzzle.board.cells if pencil[cell].bit_count() > 1]
        stuck = left or [cell for cell in rung.puzzle.board.cells if not givens[cell]]
        return sorted(stuck, key=lambda cell: (pencil[cell].bit_count(), cell))
    tightest = min(rung.walk.rounds, key=lambda each: (-EFFORT[each.technique], each.ways))
    tight = sorted(cells_touched(tightest.steps))
    givens = rung.puzzle.givens
    others = (cell for cell in rung.puzzle.board.cells if not givens[cell] and cell not in tight)
    return [*tight, *others]


def _with(puzzle: Puzzle, cell: Cell, digit: int) -> Puzzle:
    """The puzzle with another given in a cell; 0 leaves it open."""
    givens = puzzle.givens
    return replace(puzzle, givens=(*givens[:cell], digit, *givens[cell + 1 :]))
