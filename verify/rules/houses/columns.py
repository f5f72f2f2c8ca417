"""Columns: each holds no digit twice."""

from verify.board import Board
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.houses import line_rule


def of_board(board: Board) -> tuple[Distinct, ...]:
    """Every column of the board, from the left."""
    return tuple(Distinct("column", cells) for cells in board.column_lines())


RULE = line_rule(
    name="columns",
    line="column",
    meaning="No digit stands twice in a column.",
    of_board=of_board,
    example="""\
title: Four posts
kind: blank
size: 4
rules:
  rows: true
  columns: true
givens: |
  4 . 2 .
  3 . . .
  . . . 2
  . 1 . 3
""",
)
