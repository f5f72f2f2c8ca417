"""Cells a king's move apart differ: those that share an edge or a corner."""

from collections.abc import Sequence
from typing import Final

from verify.board import Board
from verify.marks import Mark
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import FLAG
from verify.rule import Rule, Saying
from verify.rules.workings.apart import Apart, Leaps, leaps_of

LEAPS: Final[Leaps] = ((0, 1), (1, -1), (1, 0), (1, 1))


def of_board(board: Board) -> tuple[Apart, ...]:
    """Every cell with the later cells a king's move away."""
    return leaps_of(board, LEAPS)


def read(node: Node, reader: Reader) -> tuple[Apart, ...]:
    """`true`."""
    return of_board(reader.board) if reader.flag(node) else ()


def draw(board: Board, leaps: Sequence[Apart]) -> tuple[Mark, ...]:
    """Nothing: they lie everywhere."""
    return ()


def says(leaps: Sequence[Apart]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("anti-king"),)


RULE = Rule(
    name="anti-king",
    meaning="Cells a king's move apart, which share an edge or a corner, hold different digits.",
    marks="`true`",
    schema=FLAG,
    read=read,
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Wide berth
kind: sudoku
size: 6
rules:
  anti-king: true
givens: |
  . 2 . | . . .
  . . . | . . .
  -------------
  . . 1 | . . .
  3 . . | . . .
  -------------
  . . . | . . 3
  . 5 . | . 6 .
""",
)
