"""Cells that hold an even digit."""

from verify.rules.workings.parity import parity_rule

RULE = parity_rule(
    name="even",
    meaning="The marked cells hold even digits.",
    remainder=0,
    shape="square",
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
