"""Chosen digits that never stand twice on a diagonal, as if each were a chess queen."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.move import EVERY_DISGUISE, Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, bit, digits_of, is_single
from verify.reading.grammar import OneOrMore, Placed, whole_from
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.parts import nothing_drawn


@dataclass(frozen=True, slots=True)
class AntiQueen:
    """None of the chosen digits stands twice in these cells, which make a whole diagonal."""

    cells: tuple[Cell, ...]
    chosen: Mask

    def clauses(self, formula: Formula) -> None:
        """No chosen digit in any two cells."""
        for digit in digits_of(self.chosen):
            for one, other in combinations(self.cells, 2):
                formula.not_all(formula.literal(one, digit), formula.literal(other, digit))

    def holds(self, grid: Grid) -> bool:
        """Each chosen digit once or not at all."""
        inside = [grid[cell] for cell in self.cells]
        return all(inside.count(digit) <= 1 for digit in digits_of(self.chosen))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """A chosen digit placed in one cell leaves the others."""
        for placed in self.cells:
            queen = pencil[placed]
            if queen & self.chosen and is_single(queen):
                removes = tuple(
                    (cell, queen) for cell in self.cells if cell != placed and pencil[cell] & queen
                )
                if removes:
                    yield Strike(removes, (placed,))

    def moved(self, move: Move) -> "AntiQueen":
        """The cells moved, and what the chosen digits become."""
        return AntiQueen(move.all(self.cells), move.mask(self.chosen))


def diagonals(board: Board) -> Iterator[tuple[Cell, ...]]:
    """Every diagonal of two cells or more, in both directions."""
    for direction in ("se", "sw"):
        for start in board.cells:
            diagonal = tuple(_ahead(board, start, direction))
            if board.step(start, direction, -1) is None and len(diagonal) > 1:
                yield diagonal


def _ahead(board: Board, start: Cell, direction: str) -> Iterator[Cell]:
    cell: Cell | None = start
    while cell is not None:
        yield cell
        cell = board.step(cell, direction)


def make(digits: Placed[tuple[Node, ...]], reader: Reader) -> tuple[AntiQueen, ...]:
    """The chosen digits, none twice, on every diagonal."""
    chosen: Mask = 0
    for node in digits.value:
        digit = reader.whole(node, 1, reader.board.digits, "a digit that moves like a queen")
        if digit is not None and bit(digit) & chosen:
            reader.problems.expected(node.place, f"{digit} again", "each digit once")
        chosen |= 0 if digit is None else bit(digit)
    return tuple(AntiQueen(cells, chosen) for cells in diagonals(reader.board))


def says(queens: Sequence[AntiQueen]) -> tuple[Saying, ...]:
    """One sentence that names the chosen digits; nothing where there is no diagonal."""
    if not queens:
        return ()
    digits = tuple(digits_of(queens[0].chosen))
    return (Saying("anti-queen", len(digits), digits=digits),)


RULE = Rule(
    name="anti-queen",
    meaning="A chosen digit never stands twice on a diagonal of any length.",
    marks="a digit by its number, or a list of digits",
    grammar=OneOrMore(whole_from(1), "a digit, or a list of digits"),
    make=make,
    draw=nothing_drawn,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Three herons
kind: sudoku
size: 9
rules:
  anti-queen: [7, 8, 9]
givens: |
  . . . | . . . | 4 . .
  6 . . | . . . | . 1 .
  3 . 2 | . . . | . . .
  ---------------------
  . . . | . . 4 | . . .
  . . 8 | 5 . . | . . .
  . . . | . . . | . . 5
  ---------------------
  . . . | . 6 . | . . .
  . . . | . . . | . . 3
  7 . . | . . . | 1 . 2
""",
)
