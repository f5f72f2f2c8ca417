"""Sums of digits as clauses: where several forms would do, the one that the solver likes best."""

from collections.abc import Mapping, Sequence
from typing import Final

from verify.board import Cell
from verify.formula.formula import Formula
from verify.formula.scan import total_scan
from verify.rules.workings.selection import MOST_SELECTED, Choice, select_choice, select_set
from verify.rules.workings.sums import choices_with_sum, digit_sets

MOST_CHOSEN: Final = 3
"""Cells anywhere that get a literal for each choice of their digits."""


def total_clauses(formula: Formula, weights: Mapping[Cell, int], total: int) -> None:
    """The digits, each times its cell's weight, sum to `total`.

    Cells of one house, or three anywhere, hold one of a few choices of digits. Elsewhere, if the
    solver counts natively, as many literals "this digit or a larger one" hold as the sum says: that
    is a hundredth of a diagram's clauses. Measured: it is several times as quick, but for puzzles
    that need thousands of conflicts; these are decided again by diagrams.
    """
    cells = tuple(weights)
    if set(weights.values()) == {1} and (len(cells) <= MOST_CHOSEN or formula.apart(cells)):
        formula.stamp(_choose_or_scan, cells, total)
    elif formula.native and all(abs(weight) == 1 for weight in weights.values()):
        _count(formula, weights, total)
    else:
        formula.stamp(_scan, cells, tuple(weights.values()), total)


def _choose_or_scan(formula: Formula, cells: tuple[Cell, ...], total: int) -> None:
    sets = digit_sets(len(cells), total, formula.digits) if formula.apart(cells) else None
    choices: Sequence[Choice] = ()
    if len(cells) <= MOST_CHOSEN:
        choices = choices_with_sum(len(cells), total, formula.digits)
    if sets is not None and len(sets) <= MOST_SELECTED:
        select_set(formula, cells, sets)
    elif 0 < len(choices) <= MOST_SELECTED:
        select_choice(formula, cells, choices)
    else:
        _scan(formula, cells, (1,) * len(cells), total)


def _scan(formula: Formula, cells: tuple[Cell, ...], weights: tuple[int, ...], total: int) -> None:
    formula.scan(total_scan(dict(zip(cells, weights, strict=True)), total, formula.pencil))


def _count(formula: Formula, weights: Mapping[Cell, int], total: int) -> None:
    """A digit is 1 and as many as there are digits from 2 up that it reaches."""
    counted, left = [], total - sum(weights.values())
    for cell, weight in weights.items():
        for literal in formula.at_least(cell):
            if weight < 0:
                # What is taken away counts where it fails.
                left += 1
            if literal in (formula.true, -formula.true):
                left -= (literal == formula.true) == (weight > 0)
            else:
                counted.append(literal if weight > 0 else -literal)
    if 0 <= left <= len(counted):
        formula.exactly(left, counted)
    else:
        formula.some(())
