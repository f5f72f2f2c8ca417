"""Caged groups: the workings that every rule with cages shares."""

from collections.abc import Collection, Iterable, Sequence
from functools import reduce
from operator import or_

from verify.board import Cell
from verify.pencil import Mask, Pencil
from verify.reading.grammar import Cells, Part
from verify.reading.node import Place
from verify.reading.reader import Reader


def caged(where: Part[Cells], reader: Reader) -> Cells | None:
    """The cells of a cage, if they hang together by their edges."""
    cells = where.value
    if cells is None or reader.board.hang_together(cells):
        return cells
    expected = "cells that hang together by their edges"
    reader.problems.expected(where.place, "a cage in several parts", expected)
    return None


def caged_apart(where: Part[Cells], reader: Reader) -> Cells | None:
    """The same for cells that must differ: no more of them than there are digits."""
    digits = reader.board.digits
    if where.value is not None and len(where.value) > digits:
        found = f"a cage of {len(where.value)} cells"
        reader.problems.expected(where.place, found, f"at most {digits}, one for each digit")
        return None
    return caged(where, reader)


def off_other_cages(
    cells: Collection[Cell], taken: Collection[Cell], place: Place, reader: Reader
) -> bool:
    """Whether a cage keeps off the cells of the cages before it; a problem at `place` if not."""
    twice = set(cells).intersection(taken)
    if twice:
        found = f"{reader.board.name(min(twice))} in a second cage"
        reader.problems.expected(place, found, "cages that do not overlap")
    return not twice


def fitting_sets(sets: Iterable[Mask], cells: Sequence[Cell], pencil: Pencil) -> list[Mask]:
    """The digit sets of which each cell can hold a digit, and each digit has a cell."""
    anywhere = reduce(or_, (pencil[cell] for cell in cells))
    fitting = [digits for digits in sets if not digits & ~anywhere]
    for cell in cells:
        mask = pencil[cell]
        fitting = [digits for digits in fitting if digits & mask]
    return fitting
