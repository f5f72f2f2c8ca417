"""Cells that hold an odd digit."""

from verify.rules.workings.parity import parity_rule

RULE = parity_rule(
    name="odd",
    meaning="The marked cells hold odd digits.",
    remainder=1,
    shape="disc",
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
