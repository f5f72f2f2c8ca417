"""Rows: each holds no digit twice."""

from verify.board import Board
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.houses import line_rule


def of_board(board: Board) -> tuple[Distinct, ...]:
    """Every row of the board, from the top."""
    return tuple(Distinct("row", cells) for cells in board.row_lines())


RULE = line_rule(
    name="rows",
    line="row",
    meaning="No digit stands twice in a row.",
    of_board=of_board,
    example="""\
title: Four punts
kind: blank
size: 4
rules:
  rows: true
  columns: true
givens: |
  . . . .
  3 . . .
  . 4 . .
  2 . . 3
""",
)
