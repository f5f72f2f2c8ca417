"""Cells whose digit is smaller than every one beside it."""

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
    return read_extremes(node, reader, least=True)


def draw(board: Board, marked: Sequence[Extreme]) -> tuple[Mark, ...]:
    """Heads at the edges of each."""
    return tuple(Tint("local-minimum", extreme.cells[0], "inward") for extreme in marked)


def says(marked: Sequence[Extreme]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("local-minimum", len(marked)),)


RULE = Rule(
    name="local-minimum",
    meaning="A marked cell is smaller than every edge neighbour that is not itself marked so.",
    marks="a group of cells",
    schema=GROUP,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Low ground
kind: sudoku
size: 6
rules:
  local-minimum: r1c3 r2c5 r3c2 r4c5 r5c2 r6c4 r4c3
givens: |
  6 5 . | . . .
  . . . | . . .
  -------------
  . . . | . 4 .
  . . . | . . 3
  -------------
  . . . | . . .
  . . . | . . .
""",
)
