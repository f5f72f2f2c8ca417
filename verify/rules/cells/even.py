"""Cells that hold an even digit."""

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
    return read_parity(node, reader, 0)


def draw(board: Board, marked: Sequence[Parity]) -> tuple[Mark, ...]:
    """A square behind each digit."""
    return tuple(Tint("even", parity.cells[0], "square") for parity in marked)


def says(marked: Sequence[Parity]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("even", len(marked)),)


RULE = Rule(
    name="even",
    meaning="The marked cells hold even digits.",
    marks="a group of cells",
    schema=GROUP,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.SHUFFLE}),
    example="""\
title: Grey herons
kind: sudoku
size: 6
rules:
  even: r1c2 r1c4 r2c4 r3c3 r3c4 r4c6 r5c1 r5c3
givens: |
  . . . | . 3 .
  5 . 4 | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  2 . . | . . .
  . 5 . | . . .
""",
)
