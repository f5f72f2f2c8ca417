"""Windows: four inner squares of a 9x9 board that are houses like its boxes."""

from collections.abc import Sequence
from functools import partial
from typing import Final

from verify.board import Board
from verify.marks import Area, Mark
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.grammar import FLAG, Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.parts import everywhere_said

BOX: Final = (3, 3)
"""The boxes of the only board that has windows, and the size of a window."""

STARTS: Final = (1, 5)
"""First rows and first columns of windows, from 0: one cell off the rim and off each other."""


def of_board(board: Board) -> tuple[Distinct, ...]:
    """The four windows of a 9x9 board, in reading order."""
    height, width = BOX
    return tuple(
        Distinct(
            "window",
            tuple(
                board.cell(top + down, left + right)
                for down in range(height)
                for right in range(width)
            ),
        )
        for top in STARTS
        for left in STARTS
    )


def make(flag: Placed[bool], reader: Reader) -> tuple[Distinct, ...]:
    """The windows of a board with boxes of 3x3."""
    boxes = reader.board.boxes
    if boxes != BOX:
        where = "a board without boxes" if boxes is None else f"boxes of {boxes[0]}x{boxes[1]}"
        found = f"windows on {where}"
        reader.problems.expected(flag.place, found, "size 9 with boxes of 3x3")
        return ()
    return of_board(reader.board)


def draw(board: Board, windows: Sequence[Distinct]) -> tuple[Mark, ...]:
    """A ground behind each."""
    return tuple(Area("window", window.cells) for window in windows)


RULE = Rule(
    name="windows",
    meaning="The four inner 3x3 windows of a 9x9 board hold every digit once.",
    marks="`true`, on a 9x9 board with 3x3 boxes",
    grammar=FLAG,
    make=make,
    draw=draw,
    says=partial(everywhere_said, "windows"),
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Four casements
kind: sudoku
size: 9
rules:
  windows: true
givens: |
  . . 1 | . 2 . | . . .
  . . 3 | . . 4 | 9 . .
  . . . | . . . | 5 7 6
  ---------------------
  . . . | . . . | . . .
  . . 5 | . . 9 | . . .
  . . 4 | . . 6 | . . .
  ---------------------
  . . 9 | . . . | . 1 .
  . . . | . . 2 | . . .
  . . . | 8 . . | . . .
""",
)
