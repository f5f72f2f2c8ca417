"""Digits of three kinds: the workings of lines where each three in a row have one of each.

Then the first and the fourth cell of any four in a row are of one kind, so the line repeats
its first three kinds to its end: there are six ways to lay the kinds out, however long it is.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations, permutations
from typing import TypeAlias

from verify.board import Cell
from verify.formula.formula import Formula
from verify.pencil import Mask, Pencil, Strike
from verify.rules.workings.lines import unkept

Kinds: TypeAlias = tuple[Mask, Mask, Mask]
"""The digits of each kind; no digit is of two kinds, and each is of one."""


def kinds_clauses(formula: Formula, cells: Sequence[Cell], kinds: Kinds) -> None:
    """The kinds of the first three cells differ, and repeat to the end of the line."""
    places = [[formula.fresh() for _ in kinds] for _ in range(3)]
    for place in places:
        formula.some(place)
    for of_kind in zip(*places, strict=True):
        formula.some(of_kind)
        for one, other in combinations(of_kind, 2):
            formula.not_all(one, other)
    for index, cell in enumerate(cells):
        for literal, kind in zip(places[index % 3], kinds, strict=True):
            placed = formula.chosen(cell, kind)
            formula.implies(literal, placed)
            for each in placed:
                formula.implies(each, [literal])


def kinds_strikes(cells: Sequence[Cell], kinds: Kinds, pencil: Pencil) -> Iterator[Strike]:
    """Digits of kinds that their cells have in no order of the three for which all cells have one.

    That is all that such a line removes.
    """
    kept = dict.fromkeys(cells, 0)
    for order in permutations(kinds):
        line = [pencil[cell] & order[index % 3] for index, cell in enumerate(cells)]
        if all(line):
            for cell, mask in zip(cells, line, strict=True):
                kept[cell] |= mask
    return unkept(kept, pencil)
