"""Caged groups: the workings that every rule with cages shares."""

from collections.abc import Collection, Sequence
from functools import reduce
from operator import or_

from verify.board import Cell
from verify.pencil import Mask, Pencil
from verify.reading.node import Node
from verify.reading.reader import Reader


def read_caged(where: Node, reader: Reader) -> tuple[Cell, ...] | None:
    """A group of cells that hang together by their edges."""
    cells = reader.group(where)
    return cells if cells is not None and _in_one_part(cells, where, reader) else None


def read_distinct_caged(where: Node, reader: Reader) -> tuple[Cell, ...] | None:
    """The same for cells that must differ: no more of them than there are digits."""
    cells, digits = reader.group(where), reader.board.digits
    if cells is None:
        return None
    if len(cells) > digits:
        found = f"a cage of {len(cells)} cells"
        reader.problems.expected(where.place, found, f"at most {digits}, one for each digit")
        return None
    return cells if _in_one_part(cells, where, reader) else None


def _in_one_part(cells: Sequence[Cell], where: Node, reader: Reader) -> bool:
    if reader.board.hang_together(cells):
        return True
    expected = "cells that hang together by their edges"
    reader.problems.expected(where.place, "a cage in several parts", expected)
    return False


def off_other_cages(
    cells: Collection[Cell], taken: Collection[Cell], item: Node, reader: Reader
) -> bool:
    """Whether a cage keeps off the cells of the cages before it; a problem where it does not."""
    twice = set(cells).intersection(taken)
    if twice:
        found = f"{reader.board.name(min(twice))} in a second cage"
        reader.problems.expected(item.place, found, "cages that do not overlap")
    return not twice


def fitting_sets(sets: Sequence[Mask], cells: Sequence[Cell], pencil: Pencil) -> list[Mask]:
    """The digit sets of which each cell can hold a digit, and each digit has a cell."""
    anywhere = reduce(or_, (pencil[cell] for cell in cells))
    return [
        digits
        for digits in sets
        if not digits & ~anywhere and all(digits & pencil[cell] for cell in cells)
    ]
