"""Relations between the digits of two cells: the workings of every rule about neighbours."""

from collections.abc import Iterator
from functools import lru_cache, reduce
from operator import or_
from typing import Final, TypeAlias

from verify.board import Cell
from verify.formula.formula import Formula, Literal
from verify.pencil import Mask, Pencil, Strike, digits_of

Partners: TypeAlias = tuple[Mask, ...]
"""For each digit of one cell, by digit from 0: the digits that the other cell may hold."""

FEW: Final = 2
"""Digits forbidden beside a digit that are cheapest said one by one."""


@lru_cache(maxsize=512)
def turned(partners: Partners) -> Partners:
    """The same relation with the two cells exchanged."""
    return tuple(
        sum(1 << one for one, mask in enumerate(partners) if mask >> other & 1)
        for other in range(len(partners))
    )


def pair_clauses(
    formula: Formula, one: Cell, other: Cell, partners: Partners, where: Literal | None = None
) -> None:
    """Two cells hold digits that stand in the relation; with `where`, they do where it holds."""
    if where is None:
        formula.stamp(_related, (one, other), partners)
    else:
        _related_where(formula, one, other, partners, where)


def _related(formula: Formula, cells: tuple[Cell, ...], partners: Partners) -> None:
    one, other = cells
    _related_where(formula, one, other, partners, formula.true)


def _related_where(
    formula: Formula, one: Cell, other: Cell, partners: Partners, asked: Literal
) -> None:
    if asked != -formula.true:
        _supports(formula, one, other, partners, asked)
        _supports(formula, other, one, turned(partners), asked, forbidden_said=True)


def _supports(
    formula: Formula,
    one: Cell,
    other: Cell,
    partners: Partners,
    asked: Literal,
    *,
    forbidden_said: bool = False,
) -> None:
    """Where it is asked, each digit of the one cell has a partner in the other.

    `forbidden_said` is set where all that is forbidden has been said from the other cell already.
    """
    there = formula.pencil[other]
    for digit in digits_of(formula.pencil[one]):
        placed, banned = formula.literal(one, digit), there & ~partners[digit]
        if not banned:
            continue
        if banned.bit_count() > FEW:
            formula.some((-asked, -placed, *formula.chosen(other, partners[digit])))
        elif not forbidden_said:
            for each in digits_of(banned):
                formula.not_all(asked, placed, formula.literal(other, each))


def pair_strikes(one: Cell, other: Cell, partners: Partners, pencil: Pencil) -> Iterator[Strike]:
    """Candidates of either cell that stand in the relation to no candidate of the other."""
    yield from _unpartnered(one, other, turned(partners), pencil)
    yield from _unpartnered(other, one, partners, pencil)


def _unpartnered(one: Cell, other: Cell, partners: Partners, pencil: Pencil) -> Iterator[Strike]:
    """Digits of the one cell that no digit of the other allows."""
    allowed = reduce(or_, (partners[digit] for digit in digits_of(pencil[other])), 0)
    struck = pencil[one] & ~allowed
    if struck:
        yield Strike(((one, struck),), (other,))
