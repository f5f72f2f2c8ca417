"""Extra regions: cells anywhere on the board that hold no digit twice."""

from collections.abc import Iterator, Sequence

from verify.board import Board
from verify.marks import Area, Mark
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import GROUP
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct


def read(node: Node, reader: Reader) -> tuple[Distinct, ...]:
    """A list of groups, each of two cells or more and of no more cells than there are digits."""
    return tuple(_read_regions(node, reader))


def _read_regions(node: Node, reader: Reader) -> Iterator[Distinct]:
    digits = reader.board.digits
    for item in reader.each(node, "a list of groups"):
        cells = reader.group(item)
        if cells is None:
            continue
        if 2 <= len(cells) <= digits:
            yield Distinct("extra region", cells)
        else:
            found = f"an extra region of {len(cells)} cell" + ("s" if len(cells) > 1 else "")
            expected = f"from 2 to {digits} cells, at most one for each digit"
            reader.problems.expected(item.place, found, expected)


def draw(board: Board, regions: Sequence[Distinct]) -> tuple[Mark, ...]:
    """A ground behind each."""
    return tuple(Area("extra-region", region.cells) for region in regions)


def says(regions: Sequence[Distinct]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("extra-region", len(regions)),)


RULE = Rule(
    name="extra-region",
    meaning="No digit stands twice in an extra region.",
    marks="a list of groups, each of at most as many cells as there are digits",
    schema={"type": "array", "items": GROUP, "minItems": 1},
    read=read,
    draw=draw,
    says=says,
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
