"""Counting circles: a digit in a circle says how many of the circles hold it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Tint
from verify.pencil import Grid, Pencil, Strike, bit
from verify.proof.formula import Formula
from verify.proof.scan import Scan
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import GROUP
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class CountCircles:
    """Each digit stands in none of the cells, or in as many as it says."""

    cells: tuple[Cell, ...]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """For each digit, a count that ends at nothing or at the digit."""
        for digit in range(1, self.digits + 1):
            formula.scan(_count_of(self.cells, digit))

    def holds(self, grid: Grid) -> bool:
        """Count each digit that is there."""
        inside = [grid[cell] for cell in self.cells]
        return all(inside.count(digit) == digit for digit in inside)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that have too few cells, or all their cells already; and cells that one needs."""
        for digit in range(1, self.digits + 1):
            able = [cell for cell in self.cells if pencil[cell] >> digit & 1]
            fixed = [cell for cell in able if pencil[cell] == bit(digit)]
            if len(able) < digit or len(fixed) == digit:
                removes = tuple((cell, bit(digit)) for cell in able if cell not in fixed)
                if len(able) < digit:
                    removes = tuple((cell, bit(digit)) for cell in able)
            elif len(able) == digit and fixed:
                removes = tuple(
                    (cell, pencil[cell] & ~bit(digit)) for cell in able if cell not in fixed
                )
            else:
                continue
            if removes:
                yield Strike(removes, self.cells)

    def moved(self, move: Move) -> "CountCircles":
        """The cells moved."""
        return CountCircles(tuple(sorted(move.all(self.cells))), self.digits)


def _count_of(cells: tuple[Cell, ...], digit: int) -> Scan[int]:
    """How often a digit has stood so far: never more than it says, and at the end so often."""

    def step(count: int, index: int, here: int) -> int | None:
        if here != digit:
            return count
        return count + 1 if count < digit else None

    return Scan(cells, 0, step, lambda count: count in (0, digit))


def read(node: Node, reader: Reader) -> tuple[CountCircles, ...]:
    """A group of cells; some digits together must say how many they are."""
    cells, digits = reader.group(node), reader.board.digits
    if cells is None:
        return ()
    most = digits * (digits + 1) // 2
    if len(cells) > most:
        found = f"{len(cells)} circles"
        reader.problems.expected(node.place, found, f"at most {most}, the sum of all digits")
        return ()
    return (CountCircles(cells, digits),)


def draw(board: Board, counts: Sequence[CountCircles]) -> tuple[Mark, ...]:
    """A circle in each cell."""
    return tuple(Tint("count-circle", cell, "disc") for count in counts for cell in count.cells)


def says(counts: Sequence[CountCircles]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("count-circles", sum(len(count.cells) for count in counts)),)


RULE = Rule(
    name="count-circles",
    meaning="A digit in a circle says how many of the circles hold that digit.",
    marks="a group of cells",
    schema=GROUP,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Ripples
kind: sudoku
size: 6
rules:
  count-circles: r1c1 r1c6 r2c3 r3c2 r3c5 r4c2 r4c5 r5c4 r6c1 r6c6
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  5 . . | . . 3
  -------------
  4 5 . | . . 2
  . . . | . . .
""",
)
