"""Disjoint groups: cells in the same place of their boxes are houses, too."""

from collections.abc import Sequence

from verify.board import Board
from verify.marks import Mark
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import FLAG
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct


def of_board(board: Board) -> tuple[Distinct, ...]:
    """A group for each place in a box, in reading order; none where the board has no boxes."""
    alike = zip(*board.box_blocks(), strict=True)
    return tuple(Distinct("disjoint group", cells) for cells in alike)


def read(node: Node, reader: Reader) -> tuple[Distinct, ...]:
    """`true`, on a board that has boxes."""
    if not reader.flag(node):
        return ()
    if reader.board.boxes is None:
        found = "disjoint groups on a board without boxes"
        reader.problems.expected(node.place, found, "a board with boxes")
    return of_board(reader.board)


def draw(board: Board, groups: Sequence[Distinct]) -> tuple[Mark, ...]:
    """Nothing: the boxes show the groups."""
    return ()


def says(groups: Sequence[Distinct]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("disjoint-groups"),)


RULE = Rule(
    name="disjoint-groups",
    meaning="Cells that lie in the same place of their boxes hold different digits.",
    marks="`true`, on a board that has boxes",
    schema=FLAG,
    read=read,
    draw=draw,
    says=says,
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
