"""Edge sums: the first cells of a line sum to the number outside."""

from collections.abc import Sequence

from verify.board import Board
from verify.marks import Clue, Mark
from verify.move import Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.outside_clues import NUMBERS
from verify.rules.workings.outside_sum import OutsideSum
from verify.rules.workings.sums import largest_sum, least_sum


def read(node: Node, reader: Reader) -> tuple[OutsideSum, ...]:
    """`{cells: N, sums: {PLACE: SUM}}`: how many cells are summed, then the sums."""
    fields = reader.fields(node, ["cells", "sums"])
    if fields is None:
        return ()
    cells_node, sums_node = fields.get("cells"), fields.get("sums")
    if cells_node is None or sums_node is None:
        return ()
    longest = min(reader.board.digits, max(reader.board.rows, reader.board.columns))
    count = reader.whole(cells_node, 2, longest, "the cells of an edge sum")
    return () if count is None else _sums(sums_node, count, reader)


def _sums(node: Node, count: int, reader: Reader) -> tuple[OutsideSum, ...]:
    low, high = least_sum(count), largest_sum(count, reader.board.digits)
    sums = []
    for line, clue in reader.clues(node):
        if len(line.cells) < count:
            found = f"an edge sum of {count} cells on a line of {len(line.cells)}"
            reader.problems.expected(clue.place, found, f"a line of {count} cells or more")
            continue
        total = reader.whole(clue, low, high, f"the sum of {count} cells")
        if total is not None:
            sums.append(OutsideSum(line.cells[:count], line.outside, total))
    return tuple(sums)


def draw(board: Board, sums: Sequence[OutsideSum]) -> tuple[Mark, ...]:
    """Each sum outside."""
    return tuple(Clue("outside", each.outside, str(each.total)) for each in sums)


def says(sums: Sequence[OutsideSum]) -> tuple[Saying, ...]:
    """One sentence, with how many cells are summed."""
    cells = str(len(sums[0].cells))
    return (Saying("edge-sum", len(sums), (("cells", cells),)),)


RULE = Rule(
    name="edge-sum",
    meaning="The first cells seen from outside sum to the number there.",
    marks="`{cells: N, sums: {PLACE: SUM}}`, N being how many cells each sum counts",
    schema={
        "type": "object",
        "properties": {"cells": {"type": "integer", "minimum": 2}, "sums": NUMBERS},
        "required": ["cells", "sums"],
        "additionalProperties": False,
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Sea wall
kind: sudoku
size: 6
rules:
  edge-sum:
    cells: 3
    sums:
      top c1: 10
      top c3: 9
      top c4: 8
      right r1: 15
      right r2: 6
      right r4: 8
      bottom c6: 9
      bottom c2: 11
      bottom c3: 12
      left r3: 8
      left r6: 11
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  4 . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
