"""Boards on which no house holds every digit, and sheets on which a house lacks one."""

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


LACKING = """\
kind: latin
size: 6
rules:
  dots:
    ratio: [r1c1 r1c2, r1c3 r1c4, r1c5 r1c6]
givens: |
  . . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
  . . . . . .
"""


def test_a_walk_ends_where_a_house_has_no_cell_for_a_digit():
    """No 5 has its double or half among six digits, so the first row has no cell for it."""
    walked = walk(puzzle_from_text(LACKING))
    assert not walked.finished
    assert not any(step.chain for step in walked.every_step)
