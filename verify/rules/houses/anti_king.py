"""Cells a king's move apart differ: those that share an edge or a corner."""

from typing import Final

from verify.board import Board
from verify.rules.workings.apart import Apart, Leaps, leap_rule, leaps_of

LEAPS: Final[Leaps] = ((0, 1), (1, -1), (1, 0), (1, 1))


def of_board(board: Board) -> tuple[Apart, ...]:
    """Every cell with the later cells a king's move away."""
    return leaps_of(board, LEAPS)


RULE = leap_rule(
    name="anti-king",
    meaning="Cells a king's move apart, which share an edge or a corner, hold different digits.",
    of_board=of_board,
    example="""\
title: Wide berth
kind: sudoku
size: 6
rules:
  anti-king: true
givens: |
  . 2 . | . . .
  . . . | . . .
  -------------
  . . 1 | . . .
  3 . . | . . .
  -------------
  . . . | . . 3
  . 5 . | . 6 .
""",
)
