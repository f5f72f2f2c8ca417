"""Extra regions: cells anywhere on the board that hold no digit twice."""

from collections.abc import Sequence
from functools import partial

from verify.board import Board
from verify.marks import Area, Mark
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.grammar import GROUPS, Cells, Several
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.parts import one_sentence


def make(groups: Several[Cells], reader: Reader) -> tuple[Distinct, ...]:
    """Groups of two cells or more, none of more cells than there are digits."""
    regions = []
    digits = reader.board.digits
    for group in groups.value:
        count = len(group.value)
        if 2 <= count <= digits:
            regions.append(Distinct("extra region", group.value))
        else:
            found = f"an extra region of {count} cell" + ("s" if count > 1 else "")
            expected = f"from 2 to {digits} cells, at most one for each digit"
            reader.problems.expected(group.place, found, expected)
    return tuple(regions)


def draw(board: Board, regions: Sequence[Distinct]) -> tuple[Mark, ...]:
    """A ground behind each."""
    return tuple(Area("extra-region", region.cells) for region in regions)


RULE = Rule(
    name="extra-region",
    meaning="No digit stands twice in an extra region.",
    marks="a list of groups, each of at most as many cells as there are digits",
    grammar=GROUPS,
    make=make,
    draw=draw,
    says=partial(one_sentence, "extra-region"),
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},  # it would tear regions apart
    example="""\
title: Reed islands
kind: sudoku
size: 6
rules:
  extra-region:
    - r2c2..r3c4
    - r4c6..r6c6 r5c3..r5c5
givens: |
  3 . . | . . .
  . . . | 2 . .
  -------------
  . . . | . . .
  5 . 4 | . . .
  -------------
  . . . | . . .
  . 4 1 | . . .
""",
)
