"""Whispers: neighbours on the line differ by much."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Final

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Fields, Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.lines import read_lines
from verify.rules.neighbours import partners
from verify.rules.pairs import Partners, pair_clauses, pair_strikes
from verify.rules.rule import Rule, Saying

USUAL: Final = 5
"""The gap where a manifest tells none (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Whisper:
    """Each two neighbours on the line differ by `gap` or more."""

    cells: tuple[Cell, ...]
    gap: int
    digits: int

    def clauses(self, formula: Formula) -> None:
        """Each digit has its partners in the next cell."""
        for one, other in pairwise(self.cells):
            pair_clauses(formula, one, other, _partners(self.digits, self.gap))

    def holds(self, grid: Grid) -> bool:
        """Take the differences."""
        return all(abs(grid[a] - grid[b]) >= self.gap for a, b in pairwise(self.cells))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits without a partner in a cell beside them on the line."""
        for one, other in pairwise(self.cells):
            yield from pair_strikes(one, other, _partners(self.digits, self.gap), pencil)

    def moved(self, move: Move) -> "Whisper":
        """The cells moved."""
        return Whisper(move.all(self.cells), self.gap, self.digits)


@lru_cache(maxsize=128)
def _partners(digits: int, gap: int) -> Partners:
    return partners(digits, lambda one, other: abs(one - other) >= gap)


def read(node: Node, reader: Reader) -> tuple[Whisper, ...]:
    """A list of paths, or `{gap: N, lines: [...]}` with a gap that two digits can have."""
    digits, gap, lines = reader.board.digits, USUAL, node
    if isinstance(node, Fields):
        fields = reader.fields(node, ["lines"], ["gap"])
        listed = fields.get("lines") if fields else None
        if fields is None or listed is None:
            return ()
        gap_node, lines = fields.get("gap"), listed
        if gap_node is not None:
            told = reader.whole(gap_node, 1, digits - 1, "the least difference of neighbours")
            if told is None:
                return ()
            gap = told
    if gap >= digits:
        expected = f"a gap below {digits}, such as {{gap: {max(1, digits // 2)}, lines: ...}}"
        reader.problems.expected(node.place, f"the usual gap of {gap} on {digits} digits", expected)
        return ()
    return tuple(Whisper(path, gap, digits) for path in read_lines(lines, reader))


def draw(board: Board, whispers: Sequence[Whisper]) -> tuple[Mark, ...]:
    """A trail each."""
    return tuple(Trail("whisper", (whisper.cells,)) for whisper in whispers)


def says(whispers: Sequence[Whisper]) -> tuple[Saying, ...]:
    """One sentence, with the gap."""
    return (Saying("whisper", len(whispers), (("gap", str(whispers[0].gap)),)),)


RULE = Rule(
    name="whisper",
    meaning="Neighbours on the line differ by five or more, or by the gap that is told.",
    marks="a list of paths, or `{gap: 4, lines: [PATH, ...]}`",
    schema={
        "oneOf": [
            PATHS,
            {
                "type": "object",
                "required": ["lines"],
                "properties": {"gap": {"type": "integer", "minimum": 1}, "lines": PATHS},
                "additionalProperties": False,
            },
        ]
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Loud voices
kind: sudoku
size: 6
rules:
  whisper:
    gap: 3
    lines:
      - r1c2 sw s se s
      - r6c5 ne n nw n
      - r2c4 w s e s w
givens: |
  . . . | . . 2
  . . . | . 1 6
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
