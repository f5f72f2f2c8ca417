"""Diagonal sums: the digits along a diagonal, seen from outside, sum to the number there."""

from functools import partial
from typing import Final

from verify.move import Disguise
from verify.reading.grammar import Clues, Grammar, Seen, whole_from
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.outside_clues import Numbers, bounded, totals_outside
from verify.rules.workings.outside_sum import OutsideSum
from verify.rules.workings.parts import one_sentence

SUMS: Final[Grammar[Seen[Node]]] = Clues(whole_from(1), diagonal=True)


def make(clues: Numbers, reader: Reader) -> tuple[OutsideSum, ...]:
    """A mapping from places outside, each with its direction, to sums."""

    def bounds(cells: int) -> tuple[int, int]:
        return cells, cells * reader.board.digits

    sums = bounded(clues, reader, bounds, "the sum of a diagonal")
    return tuple(OutsideSum(line.cells, line.outside, total) for line, total in sums)


RULE = Rule(
    name="diagonal-sum",
    meaning="The digits along the diagonal sum to the number outside; they may repeat.",
    marks="a mapping from places outside, each with its direction, to sums",
    grammar=SUMS,
    make=make,
    draw=partial(totals_outside, "diagonal"),
    says=partial(one_sentence, "diagonal-sum"),
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
