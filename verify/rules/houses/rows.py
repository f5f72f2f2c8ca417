"""Rows: each holds no digit twice."""

from collections.abc import Sequence

from verify.board import Board
from verify.marks import Mark
from verify.move import EVERY_DISGUISE
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import FLAG
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct


def of_board(board: Board) -> tuple[Distinct, ...]:
    """Every row of the board, from the top."""
    return tuple(Distinct("row", cells) for cells in board.row_lines())


def read(node: Node, reader: Reader) -> tuple[Distinct, ...]:
    """`true`."""
    return of_board(reader.board) if reader.flag(node) else ()


def draw(board: Board, rows: Sequence[Distinct]) -> tuple[Mark, ...]:
    """Nothing: the grid shows them."""
    return ()


def says(rows: Sequence[Distinct]) -> tuple[Saying, ...]:
    """Told in one sentence with the other houses."""
    return (Saying("houses", values=(("house", "row"),)),)


RULE = Rule(
    name="rows",
    meaning="No digit stands twice in a row.",
    marks="`true`",
    schema=FLAG,
    read=read,
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE,
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
