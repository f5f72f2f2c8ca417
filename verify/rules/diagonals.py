"""Long diagonals that hold no digit twice."""

from collections.abc import Sequence

from verify.board import Board
from verify.disguise import EVERY_DISGUISE, Disguise
from verify.marks import Mark, Ray
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rules.distinct import Distinct
from verify.rules.rule import Rule, Saying

CHOICES = ("both", "falling", "rising")


def falling(board: Board) -> Distinct:
    """The diagonal from the upper left to the lower right."""
    cells = tuple(board.cell(index, index) for index in range(board.rows))
    return Distinct("falling diagonal", cells)


def rising(board: Board) -> Distinct:
    """The diagonal from the lower left to the upper right."""
    last = board.rows - 1
    cells = tuple(board.cell(last - index, index) for index in range(board.rows))
    return Distinct("rising diagonal", cells)


def read(node: Node, reader: Reader) -> tuple[Distinct, ...]:
    """`both`, `falling` or `rising`."""
    choice = reader.choice(node, CHOICES, "which diagonals")
    makers = {"both": (falling, rising), "falling": (falling,), "rising": (rising,)}
    return tuple(make(reader.board) for make in makers.get(choice or "", ()))


def draw(board: Board, diagonals: Sequence[Distinct]) -> tuple[Mark, ...]:
    """A ray from corner to corner for each."""
    return tuple(Ray("diagonal", diagonal.cells) for diagonal in diagonals)


def says(diagonals: Sequence[Distinct]) -> tuple[Saying, ...]:
    """Both together, or the one by its direction."""
    which = "both" if len(diagonals) == 2 else diagonals[0].kind.split()[0]
    return (Saying(f"diagonals-{which}"),)


RULE = Rule(
    name="diagonals",
    meaning="No digit stands twice on a marked long diagonal.",
    marks="`both`, `falling` or `rising`",
    schema={"enum": list(CHOICES)},
    read=read,
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Crossed oars
kind: sudoku
size: 6
rules:
  diagonals: both
givens: |
  . . . | . . .
  6 . . | 1 2 .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . 4 6 | . . 3
  . . . | . . .
""",
)
