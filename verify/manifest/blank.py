"""A manifest to fill in."""

import json
from typing import Final

from verify.manifest.fields import WORDS_FIELDS

_BLANK: Final = """\
# A puzzle. Text behind a # is a note; take the # away where a line is to count.
title: {title}
# constructor: Ida Marsh         # the credit line
kind: sudoku                     # sudoku | latin (no boxes) | blank (only the rules below)
size: 9                          # rows = columns = number of digits, 1 to 25
# boxes: 3x3                     # rows x columns of a box, where the usual one is not wanted
# symbols: ABCDEFGHI             # what is printed for 1, 2, 3 ...

# `reglet rules` lists every rule; `reglet rules NAME` shows how its marks are written.
rules:
#   thermometer:
#     - r9c2 3n ne               # a trail: a cell, then compass steps: n ne e se s sw w nw
#     - [r1c9, r2c9, r3c8]       # or the cells, one by one
#   cage:
#     - {{cells: r1c1..r2c2, sum: 20}}
#   diagonals: both              # or falling, or rising

# One line a row, one symbol a cell, . for an open cell.
givens: |
  . . . | . . . | . . .
  . . . | . . . | . . .
  . . . | . . . | . . .
  ---------------------
  . . . | . . . | . . .
  . . . | . . . | . . .
  . . . | . . . | . . .
  ---------------------
  . . . | . . . | . . .
  . . . | . . . | . . .
  . . . | . . . | . . .

# answer: |                      # your own answer, complete: checked against the proved one
# note: For the tide-table chapter   # never printed
"""


def new_manifest(name: str) -> str:
    """The text of a manifest to fill in, for a file of that name without its suffix."""
    return _BLANK.format(title=json.dumps(_title(name), ensure_ascii=False))


def _title(name: str) -> str:
    """A title from a file's name: `slack-water` gives `Slack Water`."""
    words = "".join(
        letter if letter.isprintable() and letter not in "-_" else " " for letter in name
    ).split()
    title = " ".join(word[:1].upper() + word[1:] for word in words)
    return title[: WORDS_FIELDS["title"].longest]
