"""Lines between two discs: what `between` and `beyond` share."""

from collections.abc import Sequence

from verify.board import Cell
from verify.formula.formula import Formula, Literal
from verify.marks import Mark, Trail
from verify.pencil import Mask, at_most, digits_of
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rules.workings.lines import read_lines


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


def read_ended(node: Node, reader: Reader, least_digits: int) -> list[tuple[Cell, ...]]:
    """Paths of two ends and one cell or more inside, on a board that has digits enough."""
    digits = reader.board.digits
    if digits < least_digits:
        found, expected = f"such lines with {digits} digits", f"a board of {least_digits} or more"
        reader.problems.expected(node.place, found, expected)
    return read_lines(node, reader, least=3)


def with_discs(role: str, lines: Sequence[tuple[Cell, ...]]) -> tuple[Mark, ...]:
    """A trail between two discs for each line."""
    return tuple(Trail(role, (line,), start="circle", end="circle") for line in lines)
