"""Cells whose digit is smaller than every one beside it."""

from verify.rules.workings.extremes import extreme_rule

RULE = extreme_rule(
    name="local-minimum",
    meaning="A marked cell is smaller than every edge neighbour that is not itself marked so.",
    is_least=True,
    heads="inward",
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
