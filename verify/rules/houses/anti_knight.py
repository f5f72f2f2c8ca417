"""Cells a knight's move apart differ: two steps straight and one aside."""

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

LEAPS: Final[Leaps] = ((1, -2), (1, 2), (2, -1), (2, 1))


def of_board(board: Board) -> tuple[Apart, ...]:
    """Every cell with the later cells a knight's move away."""
    return leaps_of(board, LEAPS)


def read(node: Node, reader: Reader) -> tuple[Apart, ...]:
    """`true`."""
    return of_board(reader.board) if reader.flag(node) else ()


def draw(board: Board, leaps: Sequence[Apart]) -> tuple[Mark, ...]:
    """Nothing: they lie everywhere."""
    return ()


def says(leaps: Sequence[Apart]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("anti-knight"),)


RULE = Rule(
    name="anti-knight",
    meaning="Cells a knight's move apart, two steps straight and one aside, hold different digits.",
    marks="`true`",
    schema=FLAG,
    read=read,
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Jumping frogs
kind: sudoku
size: 6
rules:
  anti-knight: true
givens: |
  . . . | . 6 .
  . . . | 3 . .
  -------------
  . . 3 | . . 1
  . . . | . . .
  -------------
  . 4 . | . . .
  . . 2 | . . .
""",
)
