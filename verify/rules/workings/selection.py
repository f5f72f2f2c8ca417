"""Cells that hold one of several sets of digits: a literal for each set, as the solver likes it."""

from collections.abc import Iterable, Sequence

from verify.board import Cell
from verify.formula.formula import Formula, Literal
from verify.pencil import Mask, digits_of, every_digit


def select_set(
    formula: Formula, cells: Sequence[Cell], sets: Iterable[Mask]
) -> list[tuple[Literal, Mask]]:
    """The digits of the cells, which differ, are one of the sets; each has as many digits.

    Returns the sets, each with the literal that says that it is the one.
    """
    formula.distinct(cells)
    chosen = [(formula.fresh(), digits) for digits in sets]
    formula.some(literal for literal, _ in chosen)
    for digit in digits_of(every_digit(formula.digits)):
        placed = [formula.literal(cell, digit) for cell in cells]
        with_it = [literal for literal, digits in chosen if digits >> digit & 1]
        for literal in with_it:
            formula.implies(literal, placed)
        for each in placed:
            formula.implies(each, with_it)
            for literal, digits in chosen:
                if not digits >> digit & 1:
                    formula.not_all(each, literal)
    return chosen
