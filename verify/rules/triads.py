"""Lines on which each three cells in a row hold digits of three classes.

With three classes that is so exactly where cells one and two steps apart are of different ones.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

from verify.board import Cell
from verify.pencil import Pencil, Strike
from verify.proof.formula import Formula
from verify.rules.neighbours import partners
from verify.rules.pairs import Partners, pair_clauses, pair_strikes


@lru_cache(maxsize=64)
def of_other_class(digits: int, kind: Callable[[int, int], int]) -> Partners:
    """For each digit those of another class; `kind(digit, digits)` is a digit's class."""
    return partners(digits, lambda one, other: kind(one, digits) != kind(other, digits))


def _near(cells: Sequence[Cell]) -> Iterator[tuple[Cell, Cell]]:
    """The pairs of cells that lie one or two steps apart."""
    for index, cell in enumerate(cells):
        for other in cells[index + 1 : index + 3]:
            yield cell, other


def triad_clauses(formula: Formula, cells: Sequence[Cell], table: Partners) -> None:
    """Each near pair is of two classes."""
    for one, other in _near(cells):
        pair_clauses(formula, one, other, table)


def triad_strikes(cells: Sequence[Cell], pencil: Pencil, table: Partners) -> Iterator[Strike]:
    """Digits of the one class that is left to a near cell."""
    for one, other in _near(cells):
        yield from pair_strikes(one, other, table, pencil)
