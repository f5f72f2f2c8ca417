"""Cells whose digit is greater than every one beside it."""

from collections.abc import Sequence

from verify.board import Board
from verify.marks import Mark, Tint
from verify.move import Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import GROUP
from verify.rule import Rule, Saying
from verify.rules.workings.extremes import Extreme, read_extremes


def read(node: Node, reader: Reader) -> tuple[Extreme, ...]:
    """A group of cells."""
    return read_extremes(node, reader, least=False)


def draw(board: Board, marked: Sequence[Extreme]) -> tuple[Mark, ...]:
    """Heads at the edges of each."""
    return tuple(Tint("local-maximum", extreme.cells[0], "outward") for extreme in marked)


def says(marked: Sequence[Extreme]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("local-maximum", len(marked)),)


RULE = Rule(
    name="local-maximum",
    meaning="A marked cell is greater than every edge neighbour that is not itself marked so.",
    marks="a group of cells",
    schema=GROUP,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: High ground
kind: sudoku
size: 6
rules:
  local-maximum: r1c4 r2c2 r3c5 r4c2 r5c5 r6c3 r3c3
givens: |
  . . . | . . 1
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  1 4 . | . . .
  . . . | . . 5
""",
)
