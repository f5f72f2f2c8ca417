"""Sums on edges: the two cells beside a number sum to it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from verify.board import Board
from verify.disguise import Disguise, Move
from verify.marks import Badge, Mark
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Fields, Node
from verify.reading.reader import Reader
from verify.reading.schema import FLAG
from verify.rules.neighbours import (
    Pair,
    moved_pair,
    neighbours,
    numbered_schema,
    partners,
    read_numbered,
)
from verify.rules.pairs import Partners, pair_clauses, pair_strikes
from verify.rules.rule import Rule, Saying

USUAL: Final = frozenset({5, 10})
"""The sums that the trade marks where it marks all of them (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class SumMark:
    """Two neighbours whose sum is `total`, or where that is 0, none of the `shown` sums."""

    cells: Pair
    total: int
    shown: frozenset[int]
    digits: int

    def clauses(self, formula: Formula) -> None:
        """Each digit has its partners."""
        pair_clauses(formula, *self.cells, _partners(self.digits, self.total, self.shown))

    def holds(self, grid: Grid) -> bool:
        """Add the two."""
        one, other = self.cells
        found = grid[one] + grid[other]
        return found == self.total if self.total else found not in self.shown

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits without a partner across the edge."""
        table = _partners(self.digits, self.total, self.shown)
        return pair_strikes(*self.cells, table, pencil)

    def moved(self, move: Move) -> "SumMark":
        """The cells moved."""
        return SumMark(moved_pair(self.cells, move), self.total, self.shown, self.digits)


@lru_cache(maxsize=512)
def _partners(digits: int, total: int, shown: frozenset[int]) -> Partners:
    if total:
        return partners(digits, lambda one, other: one + other == total)
    return partners(digits, lambda one, other: one + other not in shown)


def read(node: Node, reader: Reader) -> tuple[SumMark, ...]:
    """A list of `{pair: r1c1 r1c2, sum: N}`, or `{marks: LIST, all-shown: true}`."""
    marks: Node | None = node
    shown: Node | None = None
    if isinstance(node, Fields):
        fields = reader.fields(node, ["marks"], ["all-shown"])
        if fields is None:
            return ()
        marks, shown = fields.get("marks"), fields.get("all-shown")
    if marks is None:
        return ()
    digits = reader.board.digits
    totals = read_numbered(marks, reader, "sum", (2, 2 * digits), "the sum of two digits")
    found = [SumMark(pair, total, frozenset(), digits) for pair, total in totals.items()]
    if shown is not None and reader.flag(shown):
        sums = USUAL if set(totals.values()) <= USUAL else frozenset(totals.values())
        unmarked = (pair for pair in neighbours(reader.board) if pair not in totals)
        found += [SumMark(pair, 0, sums, digits) for pair in unmarked]
    return tuple(found)


def draw(board: Board, sums: Sequence[SumMark]) -> tuple[Mark, ...]:
    """A badge on each edge that is marked."""
    return tuple(Badge("sum-mark", each.cells, str(each.total)) for each in sums if each.total)


def says(sums: Sequence[SumMark]) -> tuple[Saying, ...]:
    """One sentence, and one more for each sum that no unmarked neighbours have."""
    marked = sum(1 for each in sums if each.total)
    shown = sorted({total for each in sums for total in each.shown})
    negative = (Saying("sum-mark-all-shown", values=(("sum", str(total)),)) for total in shown)
    return (*([Saying("sum-mark", marked)] if marked else []), *negative)


RULE = Rule(
    name="sum-mark",
    meaning="The two cells beside a number on an edge sum to it.",
    marks=(
        "a list of `{pair: r1c1 r1c2, sum: N}`, or `{marks: LIST, all-shown: true}`: then no"
        " neighbours without a number have any of these sums (5 or 10 where only these stand)"
    ),
    schema={
        "oneOf": [
            numbered_schema("sum", 2),
            {
                "type": "object",
                "required": ["marks"],
                "properties": {"marks": numbered_schema("sum", 2), "all-shown": FLAG},
                "additionalProperties": False,
            },
        ]
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
EXAMPLE
""",
)
