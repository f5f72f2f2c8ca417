"""Same differences: neighbours all along the line differ by one amount, up or down."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from verify.board import Cell
from verify.formula.formula import Formula, Literal
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, bit, digits_of
from verify.reading.grammar import PATHS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.lines import fitting_cells, trails, unkept
from verify.rules.workings.parts import one_sentence


@dataclass(frozen=True, slots=True)
class SameDifference:
    """Every two neighbours on the line differ by the same amount, which may be 0."""

    cells: tuple[Cell, ...]

    def clauses(self, formula: Formula) -> None:
        """A literal for each difference: the line has one, and each step keeps to it.

        A scan would note difference and digit, and would tell a difference found at one end to
        the other end step by step only.
        """
        by_gap = {gap: formula.fresh() for gap in range(formula.digits)}
        formula.some(by_gap.values())
        for one, other in pairwise(self.cells):
            for gap, literal in by_gap.items():
                _steps(formula, literal, one, other, gap)
                _steps(formula, literal, other, one, gap)

    def holds(self, grid: Grid) -> bool:
        """The differences between neighbours are all the same."""
        return len({abs(grid[a] - grid[b]) for a, b in pairwise(self.cells)}) == 1

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no way along the line, whatever its difference: all there are."""
        kept = dict.fromkeys(self.cells, 0)
        line = [pencil[cell] for cell in self.cells]
        for gap in range(max(line).bit_length()):
            ways = _reached(_reached(line, gap)[::-1], gap)[::-1]
            for cell, mask in zip(self.cells, ways, strict=True):
                kept[cell] |= mask
        yield from unkept(kept, pencil)

    def moved(self, move: Move) -> "SameDifference":
        """The cells moved; differences are the same when the order of the digits is turned."""
        return SameDifference(move.all(self.cells))


def _steps(formula: Formula, literal: Literal, one: Cell, other: Cell, gap: int) -> None:
    """Where the literal holds, each digit of the one cell has one so far off in the other."""
    for digit in digits_of(formula.pencil[one]):
        beside = bit(digit) << gap | bit(digit) >> gap
        placed = formula.literal(one, digit)
        formula.some((-literal, -placed, *formula.chosen(other, beside)))


def _reached(line: Sequence[Mask], gap: int) -> list[Mask]:
    """What is left of each cell when it must be one step from what is left of the cell before."""
    left = [line[0]]
    for mask in line[1:]:
        left.append(mask & (left[-1] << gap | left[-1] >> gap))
    return left


def make(paths: Several[Cells], reader: Reader) -> tuple[SameDifference, ...]:
    """Paths of three cells or more."""
    return tuple(map(SameDifference, fitting_cells(paths, reader, least=3)))


RULE = Rule(
    name="same-difference",
    meaning="Neighbours all along the line differ by the same amount, up or down.",
    marks="a list of paths of three cells or more",
    grammar=PATHS,
    make=make,
    draw=partial(trails, "same-difference"),
    says=partial(one_sentence, "same-difference"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Duckboard stairs
kind: sudoku
size: 6
rules:
  same-difference:
    - r1c1 e e se
    - r6c6 w w nw
    - r2c5 sw s sw
    - r2c2 se sw s
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . 4
  -------------
  . 1 . | 6 . .
  . . . | . . .
""",
)
