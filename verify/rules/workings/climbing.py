"""Cells in rising order: the workings that thermometers of both kinds share."""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.marks import Mark, Trail
from verify.pencil import Mask, Pencil, Strike, at_most, digits_of, highest, lowest
from verify.reading.grammar import Cells
from verify.rule import Constraint, Saying


def climb_clauses(formula: Formula, cells: Sequence[Cell], rise: int) -> None:
    """Each cell is larger than the one before it by `rise` or more; with 0 it may be equal."""
    formula.stamp(_climbs, tuple(cells), rise)


def _climbs(formula: Formula, cells: tuple[Cell, ...], rise: int) -> None:
    """What is out of reach, and each step from both of its cells.

    One of the two would say it all, but with both a solver has half the conflicts (measured).
    """
    masks = _within_reach([formula.pencil[cell] for cell in cells], rise)
    for cell, mask in zip(cells, masks, strict=True):
        for digit in digits_of(formula.pencil[cell] & ~mask):
            formula.not_all(formula.literal(cell, digit))
    for low, high in pairwise(zip(cells, masks, strict=True)):
        _wants(formula, low, high, lambda digit: ~at_most(digit + rise - 1))
        _wants(formula, high, low, lambda digit: at_most(digit - rise))


def _within_reach(masks: Sequence[Mask], rise: int) -> Sequence[Mask]:
    """The digits of each cell that neither the cells before nor those behind rule out."""
    reach = list(masks)
    for at in range(1, len(reach)):
        reach[at] &= ~at_most(lowest(reach[at - 1]) + rise - 1)
    for at in reversed(range(len(reach) - 1)):
        reach[at] &= at_most(highest(reach[at + 1]) - rise)
    return reach


def _wants(
    formula: Formula,
    one: tuple[Cell, Mask],
    other: tuple[Cell, Mask],
    allowed: Callable[[int], Mask],
) -> None:
    """Each digit of the one cell wants one of the digits that it allows in the other."""
    (cell, digits), (partner, there) = one, other
    for digit in digits_of(digits):
        if there & ~allowed(digit):
            wanted = formula.chosen(partner, there & allowed(digit))
            formula.implies(formula.literal(cell, digit), wanted)


def climb_strikes(cells: Sequence[Cell], pencil: Pencil, rise: int) -> Iterator[Strike]:
    """Digits too small for the cells before, then digits too large for the cells after."""
    yield from _sweep(cells, pencil, lowest, lambda last: ~at_most(last + rise - 1))
    yield from _sweep(cells[::-1], pencil, highest, lambda last: at_most(last - rise))


def _sweep(
    cells: Sequence[Cell],
    pencil: Pencil,
    extreme: Callable[[Mask], int],
    allowed: Callable[[int], Mask],
) -> Iterator[Strike]:
    """Walks along the cells, keeping the extreme digit that the last one can have."""
    mask = pencil[cells[0]]
    for index, cell in enumerate(cells[1:], start=1):
        if not mask:
            return
        mask = pencil[cell] & allowed(extreme(mask))
        if mask != pencil[cell]:
            yield Strike(((cell, pencil[cell] & ~mask),), tuple(cells[:index]))


def forked(role: str, board: Board, climbs: Sequence[Constraint]) -> tuple[Mark, ...]:
    """One trail for each bulb, with all the branches that leave it."""
    branches: dict[Cell, list[Cells]] = {}
    for climb in climbs:
        branches.setdefault(climb.cells[0], []).append(climb.cells)
    return tuple(Trail(role, tuple(of_bulb), start="bulb") for of_bulb in branches.values())


def climbs_say(key: str, climbs: Sequence[Constraint]) -> tuple[Saying, ...]:
    """One sentence for all the shapes that a reader sees, and one more where any forks."""
    bulbs = len({climb.cells[0] for climb in climbs})
    forks = (Saying(f"{key}-fork"),) if bulbs < len(climbs) else ()
    return (Saying(key, bulbs), *forks)
