"""Cells a knight's move apart differ: two steps straight and one aside."""

from typing import Final

from verify.board import Board
from verify.rules.workings.apart import Apart, Leaps, leap_rule, leaps_of

LEAPS: Final[Leaps] = ((1, -2), (1, 2), (2, -1), (2, 1))


def of_board(board: Board) -> tuple[Apart, ...]:
    """Every cell with the later cells a knight's move away."""
    return leaps_of(board, LEAPS)


RULE = leap_rule(
    name="anti-knight",
    meaning="Cells a knight's move apart, two steps straight and one aside, hold different digits.",
    of_board=of_board,
    example="""\
title: Jumping frogs
kind: sudoku
size: 6
rules:
  anti-knight: true
givens: |
  . . . | . 6 .
  . . . | 3 . .
  -------------
  . . 3 | . . 1
  . . . | . . .
  -------------
  . 4 . | . . .
  . . 2 | . . .
""",
)
