"""Edge sums: the first cells of a line sum to the number outside."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Annotated

from verify.move import Disguise
from verify.reading.grammar import Entry, Part, Placed, Seen, whole_from
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.outside_clues import NUMBERS, totals_outside
from verify.rules.workings.outside_sum import OutsideSum
from verify.rules.workings.sums import largest_sum, least_sum


@dataclass(frozen=True, slots=True)
class Written:
    """Edge sums as a manifest writes them: how many cells each sums, and the sums outside."""

    cells: Annotated[Placed[Node], whole_from(2)]
    sums: Annotated[Part[Seen[Node]], NUMBERS]


def make(written: Placed[Written], reader: Reader) -> tuple[OutsideSum, ...]:
    """Sums of so many cells, on lines that are long enough."""
    longest = min(reader.board.digits, max(reader.board.rows, reader.board.columns))
    cells, clues = written.value.cells.value, written.value.sums.value or ()
    count = reader.whole(cells, 2, longest, "the cells of an edge sum")
    if count is None:
        return ()
    low, high = least_sum(count), largest_sum(count, reader.board.digits)
    sums = []
    for line, clue in clues:
        if len(line.cells) < count:
            found = f"an edge sum of {count} cells on a line of {len(line.cells)}"
            reader.problems.expected(clue.place, found, f"a line of {count} cells or more")
            continue
        total = reader.whole(clue.value, low, high, f"the sum of {count} cells")
        if total is not None:
            sums.append(OutsideSum(line.cells[:count], line.outside, total))
    return tuple(sums)


def says(sums: Sequence[OutsideSum]) -> tuple[Saying, ...]:
    """One sentence, with how many cells are summed."""
    cells = str(len(sums[0].cells))
    return (Saying("edge-sum", len(sums), (("cells", cells),)),)


RULE = Rule(
    name="edge-sum",
    meaning="The first cells seen from outside sum to the number there.",
    marks="`{cells: N, sums: {PLACE: SUM}}`, N being how many cells each sum counts",
    grammar=Entry(Written),
    make=make,
    draw=partial(totals_outside, "outside"),
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
