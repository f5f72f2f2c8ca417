"""Boxes: each holds no digit twice."""

from functools import partial

from verify.board import Board
from verify.move import EVERY_DISGUISE
from verify.reading.grammar import FLAG, Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.houses import bordered, told_with_houses


def of_board(board: Board) -> tuple[Distinct, ...]:
    """Every box of the board, in reading order; none where the board has no boxes."""
    return tuple(Distinct("box", cells) for cells in board.box_blocks())


def make(flag: Placed[bool], reader: Reader) -> tuple[Distinct, ...]:
    """All boxes of a board that has some."""
    if reader.board.boxes is None:
        size = reader.board.digits
        expected = "`boxes: ROWSxCOLUMNS`, for a size that has no usual boxes"
        reader.problems.expected(flag.place, f"boxes on a board of {size}", expected)
    return of_board(reader.board)


RULE = Rule(
    name="boxes",
    meaning="No digit stands twice in a box.",
    marks="`true`",
    grammar=FLAG,
    make=make,
    draw=partial(bordered, "box"),
    says=partial(told_with_houses, "box"),
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
