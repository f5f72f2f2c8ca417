"""Boards on which no house holds every digit."""

from verify.manifest.read import puzzle_from_text
from verify.walk.walk import walk

SHAPES = """\
kind: blank
size: 4
rules:
  thermometer: [r1c1 e e, r4c4 w w]
givens: |
  . . . .
  2 . . .
  . . . 3
  . . . .
"""


def test_ifs_are_tried_on_a_board_without_houses():
    walked = walk(puzzle_from_text(SHAPES))
    assert not walked.finished
    assert walked.pencil[0] == 0b110
