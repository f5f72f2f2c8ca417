"""Lines between two discs: what `between` and `beyond` share."""

from collections.abc import Callable
from functools import partial
from typing import TypeVar

from verify.board import Cell
from verify.facets import Facets
from verify.formula.formula import Formula, Literal
from verify.move import Disguise
from verify.pencil import Mask, at_most, digits_of
from verify.reading.grammar import PATHS, Cells, Each, Several
from verify.reading.reader import Reader
from verify.rule import Constraint, Rule
from verify.rules.workings.lines import fitting_cells, trails
from verify.rules.workings.parts import one_sentence

C = TypeVar("C", bound=Constraint)


def below_where(formula: Formula, guard: Literal, lower: Cell, higher: Cell) -> None:
    """Where `guard` holds, the one cell holds a lower digit than the other."""
    for digit in digits_of(formula.pencil[lower]):
        _beside(formula, guard, lower, digit, higher, ~at_most(digit))
    for digit in digits_of(formula.pencil[higher]):
        _beside(formula, guard, higher, digit, lower, at_most(digit - 1))


def _beside(
    formula: Formula, guard: Literal, cell: Cell, digit: int, other: Cell, allowed: Mask
) -> None:
    """Where `guard` holds and the cell holds the digit, the other one holds an allowed one."""
    if formula.pencil[other] & ~allowed:
        placed = formula.literal(cell, digit)
        formula.some((-guard, -placed, *formula.chosen(other, allowed)))


def ended_rule(
    *,
    name: str,
    meaning: str,
    make: Callable[[Several[Cells], Reader], tuple[C, ...]],
    example: str,
) -> Rule[Each[Cells], C]:
    """A rule of lines whose two ends ask something of the digits inside."""
    return Rule(
        name=name,
        meaning=meaning,
        marks="a list of paths of three cells or more, each from one end to the other",
        grammar=PATHS,
        make=make,
        draw=partial(trails, name, ends="circle"),
        says=partial(one_sentence, name),
        survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
        example=example,
    )


def ended(paths: Several[Cells], reader: Reader, least_digits: int) -> list[Cells]:
    """Paths of two ends and one cell or more inside, on a board that has digits enough."""
    digits = reader.board.digits
    if digits < least_digits:
        found, expected = f"such lines with {digits} digits", f"a board of {least_digits} or more"
        reader.problems.expected(paths.place, found, expected)
    return fitting_cells(paths, reader, least=3)


def ends_apart(cells: Cells) -> Facets:
    """Each end differs from all inside, and from the other end."""
    first, *inside, last = cells
    across = ((end, cell) for cell in inside for end in (first, last))
    return Facets(pairs=(*across, (first, last)))
