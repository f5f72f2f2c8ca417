"""Examples for rows, columns and boxes, by the size of the grids that a sheet has.

Each begins with the simplest of steps: a house that lacks one digit.
"""

from collections.abc import Iterable, Mapping
from typing import Final

from verify.puzzle import Puzzle

SUDOKU: Final[Mapping[int, str]] = {
    4: """\
title: Two punts
kind: sudoku
size: 4
givens: |
  1 2 | . 4
  3 . | . .
  ----+----
  . 1 | . .
  . 3 | 1 .
""",
    6: """\
title: Six mooring posts
kind: sudoku
size: 6
givens: |
  1 2 . | 4 5 6
  4 . 6 | 1 . 3
  ------+------
  2 . 1 | . 6 4
  5 6 . | 2 . 1
  ------+------
  3 . 2 | 6 4 .
  . 4 5 | . 1 2
""",
    9: """\
title: Nine buoys
kind: sudoku
size: 9
givens: |
  1 2 3 | 4 . 6 | 7 8 9
  4 . 6 | 7 8 . | 1 . 3
  7 8 . | 1 2 3 | . 5 6
  ------+-------+------
  2 3 1 | . 6 4 | 8 9 7
  . 6 4 | 8 . 7 | 2 . 1
  8 9 7 | 2 3 . | 5 6 4
  ------+-------+------
  3 . 2 | 6 4 5 | 9 7 .
  6 4 . | 9 . 8 | 3 1 2
  9 7 8 | . 1 2 | 6 . 5
""",
}

LATIN: Final[Mapping[int, str]] = {
    4: """\
title: Two punts
kind: latin
size: 4
givens: |
  1 2 . 4
  2 . 4 .
  . 4 . 2
  4 . 2 .
""",
    6: """\
title: Six mooring posts
kind: latin
size: 6
givens: |
  1 2 3 . 5 6
  2 . 4 5 6 1
  3 4 . 6 1 .
  4 5 6 1 . 3
  5 . 1 2 3 4
  6 1 2 . 4 5
""",
}


def plain_example(puzzles: Iterable[Puzzle], *, boxes: bool) -> str:
    """The manifest of the largest example that is no larger than any of some puzzles."""
    manifests = SUDOKU if boxes else LATIN
    smallest = min(min(each.board.rows, each.board.columns) for each in puzzles)
    return manifests[max((size for size in manifests if size <= smallest), default=min(manifests))]
