"""Calculation cages: the digits give the result by addition, subtraction, multiplication, division.

The operation may be hidden. A digit may stand twice where rows and columns allow it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache, reduce
from itertools import combinations_with_replacement
from math import comb, prod
from operator import or_
from typing import Annotated, Any, Final, TypeAlias

from verify.board import Board, Cell
from verify.facets import NOTHING, Facets, summing
from verify.formula.formula import Formula
from verify.formula.scan import Scan, total_scan
from verify.marks import Cage as CageMark
from verify.marks import Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, bit, digits_of, highest
from verify.reading.grammar import (
    GROUP,
    Cells,
    Entry,
    Listed,
    Part,
    Placed,
    Several,
    Word,
    whole_from,
)
from verify.reading.node import Node, describe
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.caged import caged, off_other_cages
from verify.rules.workings.neighbours import partners
from verify.rules.workings.pairs import pair_clauses
from verify.rules.workings.selection import MOST_SELECTED, select_choice
from verify.rules.workings.sums import sum_survivors, sums_of

LARGEST_RESULT: Final = 999_999_999
"""A result has nine figures at most."""

MOST_LOOKED_THROUGH: Final = 20_000
"""Choices of digits that are looked through for those with the result."""

MOST_REPEATED: Final = 4
"""Cells that may hold a digit twice and still get a literal for each choice of digits."""


class Operation(Enum):
    """An operation, by the sign that is printed for it."""

    ADD = "+"
    SUBTRACT = "−"
    MULTIPLY = "×"
    DIVIDE = "÷"


SIGNS: Final[Mapping[str, Operation]] = {
    **{operation.value: operation for operation in Operation},
    "-": Operation.SUBTRACT,
    "x": Operation.MULTIPLY,
    "/": Operation.DIVIDE,
}
"""The signs that a manifest may write."""

NO_SIGN: Final = "="
"""What may stand in the place of a sign where there is a single cell: any sign leaves its digit."""

Survivors: TypeAlias = Mapping[Cell, Mask]
"""The candidates of each cell that stand in some way to the result."""


@dataclass(frozen=True, slots=True)
class Calculation:
    """The digits give the result by the operation, or by any of the four where it is None.

    Subtraction and division take all other digits from one of them, or divide it by them all.
    """

    cells: tuple[Cell, ...]
    operation: Operation | None
    result: int

    def clauses(self, formula: Formula) -> None:
        """The choices of digits that give the result; where they are many, diagrams."""
        formula.stamp(_clauses, self.cells, self.operation, self.result)

    def holds(self, grid: Grid) -> bool:
        """All added; all multiplied; or all but one taken from, or dividing, that one."""
        inside = [grid[cell] for cell in self.cells]
        kept = {
            Operation.ADD: sum(inside) == self.result,
            Operation.SUBTRACT: any(2 * one - sum(inside) == self.result for one in inside),
            Operation.MULTIPLY: prod(inside) == self.result,
            Operation.DIVIDE: any(one * one == self.result * prod(inside) for one in inside),
        }
        return any(kept.values()) if self.operation is None else kept[self.operation]

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates in no choice of digits that gives the result."""
        ways = [self._survivors(operation, pencil) for operation in self._operations()]
        for cell in self.cells:
            struck = pencil[cell] & ~reduce(or_, (kept[cell] for kept in ways))
            if struck:
                yield Strike(((cell, struck),), self.cells)

    def moved(self, move: Move) -> "Calculation":
        """The cells moved."""
        return Calculation(tuple(sorted(move.all(self.cells))), self.operation, self.result)

    def facets(self, digits: int) -> Facets:
        """A sum where it adds; two cells that differ, where difference or quotient says so."""
        if self.operation is Operation.ADD or len(self.cells) == 1:
            return summing(self.cells, self.result)
        is_difference = self.operation is Operation.SUBTRACT and self.result > 0
        is_quotient = self.operation is Operation.DIVIDE and self.result > 1
        if len(self.cells) > 2 or not (is_difference or is_quotient):
            return NOTHING
        one, other = self.cells
        return Facets(pairs=((one, other),))

    def _operations(self) -> Sequence[Operation]:
        return _operations(len(self.cells), self.operation, self.result)

    def _survivors(self, operation: Operation, pencil: Pencil) -> Survivors:
        match operation:
            case Operation.ADD:
                terms = [(cell, 1) for cell in self.cells]
                return dict(sum_survivors(terms, pencil, 1 << self.result))
            case Operation.MULTIPLY:
                return _product_survivors(self.cells, pencil, {self.result})
            case Operation.SUBTRACT:
                each = [self._less_the_others(first, pencil) for first in self.cells]
            case Operation.DIVIDE:
                each = [self._by_the_others(first, pencil) for first in self.cells]
        return {cell: reduce(or_, (kept[cell] for kept in each)) for cell in self.cells}

    def _less_the_others(self, first: Cell, pencil: Pencil) -> Survivors:
        """What stands in `first` less all the others."""
        others = [(cell, 1) for cell in self.cells if cell != first]
        kept = dict(sum_survivors(others, pencil, pencil[first] >> self.result))
        kept[first] = pencil[first] & sums_of(others, pencil) << self.result
        return kept

    def _by_the_others(self, first: Cell, pencil: Pencil) -> Survivors:
        """What stands in `first` divided by all the others."""
        others = [cell for cell in self.cells if cell != first]
        quotients = {
            digit // self.result for digit in digits_of(pencil[first]) if digit % self.result == 0
        }
        kept = _product_survivors(others, pencil, quotients)
        products = _products(others, pencil, max(quotients, default=0))
        kept[first] = pencil[first] & sum(bit(self.result * product) for product in products)
        return kept


def _operations(cells: int, operation: Operation | None, result: int) -> Sequence[Operation]:
    """What the operation may be: of a single cell any, for each leaves the digit as it is.

    Only a difference can be 0.
    """
    if cells == 1:
        return (Operation.ADD,)
    if operation is not None:
        return (operation,)
    return tuple(Operation) if result else (Operation.SUBTRACT,)


def _clauses(
    formula: Formula, cells: tuple[Cell, ...], operation: Operation | None, result: int
) -> None:
    """Two cells by a relation, few choices by a literal each, and else a diagram.

    Where the operation is hidden, there is a diagram for each of those that it may be.
    """
    operations = _operations(len(cells), operation, result)
    choices = _choices(len(cells), formula.digits, tuple(operations), result)
    if choices is not None and len(cells) == 2:
        related = {*choices, *(choice[::-1] for choice in choices)}
        pair_clauses(formula, *cells, partners(formula.digits, lambda *digits: digits in related))
    elif choices is not None and (len(cells) <= MOST_REPEATED or formula.apart(cells)):
        select_choice(formula, cells, choices)
    else:
        chosen = [formula.fresh() if len(operations) > 1 else formula.true for _ in operations]
        formula.some(chosen)
        for each, where in zip(operations, chosen, strict=True):
            formula.scan(_scan(cells, each, result, formula.pencil), where)


@lru_cache(maxsize=4096)
def _choices(
    cells: int, digits: int, operations: tuple[Operation, ...], result: int
) -> tuple[tuple[int, ...], ...] | None:
    """All choices of rising digits, some of them alike, that give the result by an operation.

    None where they are too many, or too many to look through.
    """
    if comb(digits + cells - 1, cells) > MOST_LOOKED_THROUGH:
        return None
    every = combinations_with_replacement(range(1, digits + 1), cells)
    found = tuple(each for each in every if any(_gives(each, by, result) for by in operations))
    return found if len(found) <= MOST_SELECTED else None


def _gives(rising: Sequence[int], operation: Operation, result: int) -> bool:
    """Whether the digits give the result: no result is below what takes from the largest."""
    largest = rising[-1]
    match operation:
        case Operation.ADD:
            return sum(rising) == result
        case Operation.MULTIPLY:
            return prod(rising) == result
        case Operation.SUBTRACT:
            return 2 * largest - sum(rising) == result
        case Operation.DIVIDE:
            return largest * largest == result * prod(rising)


def _scan(cells: Cells, operation: Operation, result: int, pencil: Pencil) -> Scan[Any]:
    """What one must note of the cells to know whether the operation gives the result."""
    match operation:
        case Operation.ADD:
            return total_scan(dict.fromkeys(cells, 1), result, pencil)
        case Operation.MULTIPLY:
            return _product_scan(cells, result)
        case Operation.SUBTRACT:
            return _difference_scan(cells, result, pencil)
        case Operation.DIVIDE:
            return _quotient_scan(cells, result, pencil)


def _product_scan(cells: Cells, result: int) -> Scan[int]:
    """The product so far, as long as it divides the result."""

    def step(so_far: int, index: int, digit: int) -> int | None:
        return None if result % (so_far * digit) else so_far * digit

    return Scan(cells, 1, step, lambda product: product == result)


def _difference_scan(cells: Cells, result: int, pencil: Pencil) -> Scan[tuple[int, int]]:
    """The sum and the largest digit so far.

    No result is below 0, so it is the largest digit from which the others are taken.
    """
    most = 2 * _largest(cells, pencil) - result

    def step(so_far: tuple[int, int], index: int, digit: int) -> tuple[int, int] | None:
        total, largest = so_far[0] + digit, max(so_far[1], digit)
        return (total, largest) if total <= most else None

    return Scan(cells, (0, 0), step, lambda end: 2 * end[1] - end[0] == result)


def _quotient_scan(cells: Cells, result: int, pencil: Pencil) -> Scan[tuple[int, int]]:
    """The product and the largest digit so far.

    No result is below 1, so it is the largest digit that is divided by the others.
    """
    most = _largest(cells, pencil) ** 2 // result

    def step(so_far: tuple[int, int], index: int, digit: int) -> tuple[int, int] | None:
        product, largest = so_far[0] * digit, max(so_far[1], digit)
        return (product, largest) if product <= most else None

    def ends(end: tuple[int, int]) -> bool:
        product, largest = end
        return largest * largest == result * product

    return Scan(cells, (1, 0), step, ends)


def _largest(cells: Cells, pencil: Pencil) -> int:
    """The largest digit left in any of the cells."""
    return highest(reduce(or_, (pencil[cell] for cell in cells)))


def _product_survivors(
    cells: Sequence[Cell], pencil: Pencil, allowed: set[int]
) -> dict[Cell, Mask]:
    """For each cell, the candidates that stand in some choice whose product is allowed."""
    back = [allowed]
    for cell in reversed(cells):
        digits = tuple(digits_of(pencil[cell]))
        back.append({goal // d for goal in back[-1] for d in digits if goal % d == 0})
    back.reverse()
    products, kept = {1} & back[0], {}
    for cell, goals in zip(cells, back[1:], strict=True):
        digits = tuple(digits_of(pencil[cell]))
        kept[cell] = sum(bit(d) for d in digits if any(p * d in goals for p in products))
        products = {p * d for p in products for d in digits} & goals
    return kept


def _products(cells: Sequence[Cell], pencil: Pencil, most: int) -> set[int]:
    """Every product up to `most` that the marks allow."""
    products = {1}
    for cell in cells:
        products = {p * d for p in products for d in digits_of(pencil[cell]) if p * d <= most}
    return products


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A calculation cage as a manifest writes it; without a sign its operation is hidden."""

    cells: Annotated[Part[Cells], GROUP]
    op: Annotated[Part[str] | None, Word((*SIGNS, NO_SIGN), "operation")] = None
    result: Annotated[Placed[Node], whole_from(0, LARGEST_RESULT)]


def make(cages: Several[Written], reader: Reader) -> tuple[Calculation, ...]:
    """Cages that keep off each other."""
    found: list[Calculation] = []
    taken: set[Cell] = set()
    for written in cages.value:
        cage = _cage(written.value, reader)
        if cage is not None and off_other_cages(cage.cells, taken, written.place, reader):
            found.append(cage)
            taken.update(cage.cells)
    return tuple(found)


def _cage(written: Written, reader: Reader) -> Calculation | None:
    """One cage, whose result its operation can have."""
    cells, sign = caged(written.cells, reader), written.op
    if cells is None or (sign is not None and not _is_sign(sign, len(cells), reader)):
        return None
    # Every operation leaves a single digit as it is, so none is kept or printed for it.
    operation = SIGNS[sign.value] if sign and sign.value and len(cells) > 1 else None
    result = _result(written.result.value, len(cells), operation, reader)
    return None if result is None else Calculation(cells, operation, result)


def _is_sign(sign: Part[str], count: int, reader: Reader) -> bool:
    """Whether it is a sign that a cage of so many cells can have."""
    if count > 1 and sign.value == NO_SIGN:
        expected = f"one of {', '.join(SIGNS)} for {count} cells"
        reader.problems.expected(sign.place, f'"{NO_SIGN}"', expected)
        return False
    return sign.value is not None


def _result(node: Node, count: int, operation: Operation | None, reader: Reader) -> int | None:
    """The result, where cells that may all hold any digit can reach it."""
    digits = reader.board.digits
    of = f"{count} digits" if count > 1 else "a single digit"
    what = f"{NAMES[operation]} of {of} from 1 to {digits}"
    tried = tuple(Operation) if operation is None and count > 1 else (operation or Operation.ADD,)
    bounds = [_bounds(each, count, digits) for each in tried]
    reached = [(low, min(high, LARGEST_RESULT)) for low, high in bounds if low <= high]
    if not reached:
        reader.problems.expected(node.place, describe(node), f"fewer cells for {what}")
        return None
    low, high = min(low for low, _ in reached), max(high for _, high in reached)
    result = reader.whole(node, low, high, what)
    if result is None or any(_reaches(each, result, count, digits) for each in tried):
        return result
    reader.problems.expected(node.place, describe(node), what)
    return None


NAMES: Final[Mapping[Operation | None, str]] = {
    Operation.ADD: "a sum",
    Operation.SUBTRACT: "a difference",
    Operation.MULTIPLY: "a product",
    Operation.DIVIDE: "a quotient",
    None: "a result",
}


def _bounds(operation: Operation, count: int, digits: int) -> tuple[int, int]:
    """The least and the largest result; the first is above the second where there is none."""
    match operation:
        case Operation.ADD:
            return count, count * digits
        case Operation.SUBTRACT:
            return 0, digits - (count - 1)
        case Operation.MULTIPLY:
            return 1, digits**count
        case Operation.DIVIDE:
            return 1, digits


def _reaches(operation: Operation, result: int, count: int, digits: int) -> bool:
    """Whether so many digits, repeated or not, have the result.

    All that lies within bounds can be reached but by multiplication.
    """
    low, high = _bounds(operation, count, digits)
    if not low <= result <= high:
        return False
    if operation is not Operation.MULTIPLY:
        return True
    goals = {result}
    # No more factors above 1 than the result has bits; all other cells hold 1.
    for _ in range(min(count, result.bit_length())):
        goals = {goal // d for goal in goals for d in range(1, digits + 1) if goal % d == 0}
    return 1 in goals


def draw(board: Board, cages: Sequence[Calculation]) -> tuple[Mark, ...]:
    """An outline with the result and the sign as its label."""
    return tuple(CageMark("calculation", cage.cells, _label(cage)) for cage in cages)


def _label(cage: Calculation) -> str:
    return f"{cage.result}{cage.operation.value if cage.operation else ''}"


def says(cages: Sequence[Calculation]) -> tuple[Saying, ...]:
    """One sentence each for cages with a sign, with a hidden one, and of a single cell."""
    single = sum(len(cage.cells) == 1 for cage in cages)
    signed = sum(cage.operation is not None for cage in cages)
    hidden = len(cages) - single - signed
    keys = (
        ("calculation", signed + hidden),
        ("calculation-hidden", hidden),
        ("calculation-single", single),
    )
    return tuple(Saying(key, count) for key, count in keys if count)


RULE = Rule(
    name="calculation",
    meaning="The digits in a cage give its number by its operation, taken in some order.",
    marks='a list of `{cells: GROUP, op: "+", result: N}`; without `op` where it is hidden',
    grammar=Listed(Entry(Written), "a list of calculation cages"),
    make=make,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Toll sums
kind: latin
size: 6
rules:
  calculation:
    - {cells: r1c1 r1c2 r2c1, op: "+", result: 13}
    - {cells: r1c3 r1c4 r2c4, op: "x", result: 10}
    - {cells: r1c5 r1c6 r2c6, op: "+", result: 15}
    - {cells: r2c2 r2c3 r3c3, result: 12}
    - {cells: r2c5 r3c5 r3c6, op: "x", result: 6}
    - {cells: r3c1 r4c1, op: "-", result: 4}
    - {cells: r3c2 r4c2 r5c2, op: "+", result: 13}
    - {cells: r3c4 r4c4, op: "+", result: 8}
    - {cells: r4c3 r5c3 r5c4, result: 10}
    - {cells: r4c5 r4c6 r5c6, op: "x", result: 24}
    - {cells: r5c1 r6c1 r6c2, op: "x", result: 24}
    - {cells: r5c5 r6c5 r6c6, op: "+", result: 12}
    - {cells: r6c3 r6c4, op: "-", result: 1}
givens: |
  . . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
""",
)
