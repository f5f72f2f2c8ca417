"""Cells that hold one of several sets of digits: a literal for each set, as the solver likes it."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import combinations
from typing import Final, TypeAlias

from verify.board import Cell
from verify.formula.formula import Formula, Literal
from verify.pencil import Mask, bit, digits_of, every_digit

Choice: TypeAlias = tuple[int, ...]
"""Digits that rise, some of them alike."""

Chosen: TypeAlias = list[tuple[Literal, Mask]]
"""Sets of digits, each with the literal that says that it is the one."""

MOST_SELECTED: Final = 126
"""Sets that get a literal each; past that other clauses are fewer."""


def select_set(formula: Formula, cells: Sequence[Cell], sets: Iterable[Mask]) -> Chosen:
    """The digits of the cells, which differ, are one of the sets; each has as many digits."""
    if not formula.apart(cells):
        formula.distinct(cells)
    chosen = choices(formula, sets)
    _hold(formula, cells, chosen)
    return chosen


def select_choice(
    formula: Formula, cells: Sequence[Cell], allowed: Iterable[Choice]
) -> list[tuple[Literal, Choice]]:
    """The cells hold, in some order, one of the allowed choices of digits; these may repeat.

    Returns the choices that there can be, each with the literal that says that it is the one.
    """
    allowed = tuple(allowed)
    if formula.apart(cells):
        allowed = tuple(each for each in allowed if len({*each}) == len(each))
        sets = select_set(formula, cells, (sum(map(bit, each)) for each in allowed))
        return [(literal, each) for (literal, _), each in zip(sets, allowed, strict=True)]
    chosen = choices(formula, [sum(map(bit, {*each})) for each in allowed])
    _hold(formula, cells, chosen)
    for (literal, _), choice in zip(chosen, allowed, strict=True):
        for digit in {*choice}:
            placed = [formula.literal(cell, digit) for cell in cells]
            _as_often(formula, literal, placed, choice.count(digit))
    return [(literal, each) for (literal, _), each in zip(chosen, allowed, strict=True)]


def _hold(formula: Formula, cells: Sequence[Cell], chosen: Chosen) -> None:
    """The digits in the cells are just those of the chosen set."""
    for digit, held in held_digits(formula, chosen).items():
        placed = [formula.literal(cell, digit) for cell in cells]
        formula.implies(held, placed)
        for each in placed:
            formula.implies(each, [held])


def _as_often(formula: Formula, where: Literal, literals: Sequence[Literal], times: int) -> None:
    """Where a literal holds, just so many of the others do; that one does is said elsewhere."""
    for too_many in combinations(literals, times + 1):
        formula.not_all(where, *too_many)
    if times > 1:
        for all_but_fewer in combinations(literals, len(literals) - times + 1):
            formula.implies(where, all_but_fewer)


def choices(formula: Formula, sets: Iterable[Mask]) -> Chosen:
    """A literal for each of the sets, of which one holds."""
    sets = tuple(sets)
    if len(sets) == 2:
        first = formula.fresh()
        return [(first, sets[0]), (-first, sets[1])]
    chosen = [(formula.fresh() if len(sets) > 1 else formula.true, digits) for digits in sets]
    formula.some(literal for literal, _ in chosen)
    return chosen


def held_digits(formula: Formula, chosen: Chosen) -> Mapping[int, Literal]:
    """For each digit, the literal that says that the chosen set holds it.

    A digit that one set alone has is held where that set is chosen, so that two sets with such
    digits might be chosen at once: cells of which there are as many as digits in a set can't hold
    both.
    """
    return {
        digit: _held(formula, digit, chosen) for digit in digits_of(every_digit(formula.digits))
    }


def none_outside(
    formula: Formula, digit: int, held: Literal, cells: Iterable[tuple[Cell, Literal]]
) -> None:
    """A digit that is held stands in none of the cells beside which the literal fails.

    Where each held digit stands in some cell, and as many cells are left as digits are held, the
    rest follows.
    """
    for cell, beside in cells:
        formula.some((-formula.literal(cell, digit), beside, -held))


def _held(formula: Formula, digit: int, chosen: Chosen) -> Literal:
    having = [literal for literal, digits in chosen if digits >> digit & 1]
    lacking = [literal for literal, digits in chosen if not digits >> digit & 1]
    if not having or not lacking:
        return formula.true if having else -formula.true
    if len(having) == 1:
        return having[0]
    held = -lacking[0] if len(lacking) == 1 else formula.fresh()
    for literal in having:
        formula.implies(literal, [held])
    if len(lacking) == 1:
        return held
    formula.implies(held, having)
    formula.implies(-held, lacking)
    for literal in lacking:
        formula.implies(literal, [-held])
    return held
