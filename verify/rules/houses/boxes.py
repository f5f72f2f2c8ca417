"""Boxes: each holds no digit twice."""

from collections.abc import Sequence

from verify.board import Board
from verify.marks import Border, Mark
from verify.move import EVERY_DISGUISE
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import FLAG
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct


def of_board(board: Board) -> tuple[Distinct, ...]:
    """Every box of the board, in reading order; none where the board has no boxes."""
    return tuple(Distinct("box", cells) for cells in board.box_blocks())


def read(node: Node, reader: Reader) -> tuple[Distinct, ...]:
    """`true`, on a board that has boxes."""
    if not reader.flag(node):
        return ()
    if reader.board.boxes is None:
        size = reader.board.digits
        expected = "`boxes: ROWSxCOLUMNS`, for a size that has no usual boxes"
        reader.problems.expected(node.place, f"boxes on a board of {size}", expected)
    return of_board(reader.board)


def draw(board: Board, boxes: Sequence[Distinct]) -> tuple[Mark, ...]:
    """A border around each."""
    return tuple(Border("box", box.cells) for box in boxes)


def says(boxes: Sequence[Distinct]) -> tuple[Saying, ...]:
    """Told in one sentence with the other houses."""
    return (Saying("houses", values=(("house", "box"),)),)


RULE = Rule(
    name="boxes",
    meaning="No digit stands twice in a box.",
    marks="`true`",
    schema=FLAG,
    read=read,
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE,
    example="""\
title: Six sluices
kind: sudoku
size: 6
givens: |
  . 2 1 | . . .
  5 . . | . . .
  -------------
  3 . . | . 5 .
  . 6 . | . . 4
  -------------
  . . . | . . 3
  . . . | 1 6 .
""",
)
