"""Diagonal sums: the digits along a diagonal, seen from outside, sum to the number there."""

from collections.abc import Sequence

from verify.board import Board
from verify.marks import Clue, Mark
from verify.move import Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import clues
from verify.rule import Rule, Saying
from verify.rules.workings.outside_clues import read_numbers
from verify.rules.workings.outside_sum import OutsideSum


def read(node: Node, reader: Reader) -> tuple[OutsideSum, ...]:
    """A mapping from places outside, each with its direction, to sums."""

    def bounds(cells: int) -> tuple[int, int]:
        return cells, cells * reader.board.digits

    sums = read_numbers(node, reader, bounds, "the sum of a diagonal", diagonal=True)
    return tuple(OutsideSum(line.cells, line.outside, total) for line, total in sums)


def draw(board: Board, sums: Sequence[OutsideSum]) -> tuple[Mark, ...]:
    """Each sum outside, with its direction."""
    return tuple(Clue("diagonal", each.outside, str(each.total)) for each in sums)


def says(sums: Sequence[OutsideSum]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("diagonal-sum", len(sums)),)


RULE = Rule(
    name="diagonal-sum",
    meaning="The digits along the diagonal sum to the number outside; they may repeat.",
    marks="a mapping from places outside, each with its direction, to sums",
    schema=clues({"type": "integer", "minimum": 1}, diagonal=True),
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Slanting light
kind: sudoku
size: 6
rules:
  diagonal-sum:
    top c1 se: 17
    top c2 se: 12
    top c3 se: 6
    right r1 sw: 25
    right r2 sw: 11
    right r3 sw: 9
    bottom c6 nw: 25
    bottom c5 nw: 16
    bottom c4 nw: 5
    left r6 ne: 15
    left r5 ne: 13
    left r4 ne: 7
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
