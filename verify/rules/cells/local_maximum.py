"""Cells whose digit is greater than every one beside it."""

from verify.rules.workings.extremes import extreme_rule

RULE = extreme_rule(
    name="local-maximum",
    meaning="A marked cell is greater than every edge neighbour that is not itself marked so.",
    is_least=False,
    heads="outward",
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
