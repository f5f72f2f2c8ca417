"""Chosen digits that never see themselves along a diagonal."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark
from verify.pencil import Grid, Pencil, Strike, bit, is_single
from verify.proof.formula import Formula
from verify.reading.node import Items, Node
from verify.reading.reader import Reader
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class AntiQueen:
    """A digit does not stand twice on one diagonal of any length."""

    cells: tuple[Cell, ...]
    digit: int

    def clauses(self, formula: Formula) -> None:
        """No two of the cells hold the digit."""
        literals = [formula.literal(cell, self.digit) for cell in self.cells]
        for index, one in enumerate(literals):
            for other in literals[index + 1 :]:
                formula.not_all(one, other)

    def holds(self, grid: Grid) -> bool:
        """The digit stands there once at most."""
        return [grid[cell] for cell in self.cells].count(self.digit) < 2

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Once placed, the digit leaves the rest of the diagonal."""
        mask = bit(self.digit)
        for placed in self.cells:
            if is_single(pencil[placed]) and pencil[placed] == mask:
                struck = tuple(
                    (cell, mask) for cell in self.cells if cell != placed and pencil[cell] & mask
                )
                if struck:
                    yield Strike(struck, (placed,))

    def moved(self, move: Move) -> "AntiQueen":
        """The cells moved, and what the digit becomes."""
        return AntiQueen(move.all(self.cells), move.digits[self.digit])


def of_board(board: Board, digit: int) -> tuple[AntiQueen, ...]:
    """Every diagonal of two cells or more, in both directions."""
    lines: dict[tuple[str, int], list[Cell]] = {}
    for cell in board.cells:
        row, column = board.place(cell)
        lines.setdefault(("falling", column - row), []).append(cell)
        lines.setdefault(("rising", column + row), []).append(cell)
    return tuple(AntiQueen(tuple(cells), digit) for cells in lines.values() if len(cells) > 1)


def read(node: Node, reader: Reader) -> tuple[AntiQueen, ...]:
    """One digit by its number, or a list of digits."""
    found: dict[int, tuple[AntiQueen, ...]] = {}
    for item in node.items if isinstance(node, Items) and node.items else (node,):
        digit = reader.whole(item, 1, reader.board.digits, "a digit by its number")
        if digit in found:
            reader.problems.expected(item.place, f"{digit} again", "each digit once")
        elif digit is not None:
            found[digit] = of_board(reader.board, digit)
    return tuple(line for lines in found.values() for line in lines)


def draw(board: Board, lines: Sequence[AntiQueen]) -> tuple[Mark, ...]:
    """Nothing: the rule holds for the whole board."""
    return ()


def says(lines: Sequence[AntiQueen]) -> tuple[Saying, ...]:
    """One sentence a digit."""
    digits = sorted({line.digit for line in lines})
    return tuple(Saying("anti-queen", digits=(("chosen", digit),)) for digit in digits)


RULE = Rule(
    name="anti-queen",
    meaning="A chosen digit never stands twice on a diagonal, long or short.",
    marks="the digit by its number, or a list of digits",
    schema={
        "oneOf": [
            {"type": "integer", "minimum": 1},
            {"type": "array", "items": {"type": "integer", "minimum": 1}, "minItems": 1},
        ]
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.RELABEL}),
    example="""\
title: Lone herons
kind: sudoku
size: 6
rules:
  anti-queen: 6
givens: |
  . 2 . | . . .
  . . . | . 4 .
  -------------
  . . 5 | . . .
  . . . | 3 . .
  -------------
  . . 3 | 5 . .
  . . . | . . 3
""",
)
