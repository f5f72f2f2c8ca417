"""Disjoint groups: cells in the same place of their boxes are houses, too."""

from functools import partial

from verify.board import Board
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.grammar import FLAG, Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.parts import everywhere_said, nothing_drawn


def of_board(board: Board) -> tuple[Distinct, ...]:
    """A group for each place in a box, in reading order; none where the board has no boxes."""
    alike = zip(*board.box_blocks(), strict=True)
    return tuple(Distinct("disjoint group", cells) for cells in alike)


def make(flag: Placed[bool], reader: Reader) -> tuple[Distinct, ...]:
    """All groups of a board that has boxes."""
    if reader.board.boxes is None:
        found = "disjoint groups on a board without boxes"
        reader.problems.expected(flag.place, found, "a board with boxes")
    return of_board(reader.board)


RULE = Rule(
    name="disjoint-groups",
    meaning="Cells that lie in the same place of their boxes hold different digits.",
    marks="`true`, on a board that has boxes",
    grammar=FLAG,
    make=make,
    draw=nothing_drawn,  # the boxes show the groups
    says=partial(everywhere_said, "disjoint-groups"),
    # Rows may be shuffled otherwise in one band than in another, and leave their places then.
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Same berth
kind: sudoku
size: 6
rules:
  disjoint-groups: true
givens: |
  . 5 . | 4 . .
  . . . | . 2 .
  -------------
  . . . | . . 3
  1 . 4 | . . .
  -------------
  . . . | . 6 .
  3 . . | . . .
""",
)
