"""Cells that hold an odd digit."""

from collections.abc import Sequence

from verify.board import Board
from verify.marks import Mark, Tint
from verify.move import Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import GROUP
from verify.rule import Rule, Saying
from verify.rules.workings.parity import Parity, read_parity


def read(node: Node, reader: Reader) -> tuple[Parity, ...]:
    """A group of cells."""
    return read_parity(node, reader, 1)


def draw(board: Board, marked: Sequence[Parity]) -> tuple[Mark, ...]:
    """A disc behind each digit."""
    return tuple(Tint("odd", parity.cells[0], "disc") for parity in marked)


def says(marked: Sequence[Parity]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("odd", len(marked)),)


RULE = Rule(
    name="odd",
    meaning="The marked cells hold odd digits.",
    marks="a group of cells",
    schema=GROUP,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.SHUFFLE}),
    example="""\
title: White egrets
kind: sudoku
size: 6
rules:
  odd: r2c1 r2c3 r3c1 r3c3 r4c1 r5c4 r5c6 r6c3
givens: |
  . . . | . . .
  . . . | . 3 .
  -------------
  1 . . | . . .
  . 6 . | . . 2
  -------------
  . . . | . . .
  . . . | . 1 .
""",
)
