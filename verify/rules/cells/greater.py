"""Inequality signs between cells that share an edge."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from verify.board import Board, Cell
from verify.facets import Facets, rising
from verify.formula.formula import Formula
from verify.marks import Mark, Sign
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike
from verify.reading.grammar import Each, Grammar, Listed, Several, as_written
from verify.reading.node import Node, Text, describe
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.climbing import climb_clauses, climb_strikes
from verify.rules.workings.parts import one_sentence

PART: Final = re.compile(r"[<>]|[^\s<>]+")
"""A sign, or what stands between signs and spaces."""

SIGNED: Final = as_written(
    {"type": "string", "pattern": "^ *r[0-9]+c[0-9]+ *[<>] *r[0-9]+c[0-9]+ *$"}
)
SIGNS: Final[Grammar[Each[Node]]] = Listed(SIGNED, "a list such as r1c1 > r1c2")


@dataclass(frozen=True, slots=True)
class Greater:
    """The first cell holds a larger digit than the second."""

    cells: tuple[Cell, Cell]

    def clauses(self, formula: Formula) -> None:
        """From the second cell to the first digits climb by 1 or more."""
        climb_clauses(formula, self.cells[::-1], 1)

    def holds(self, grid: Grid) -> bool:
        """The first digit is larger than the second."""
        larger, smaller = self.cells
        return grid[larger] > grid[smaller]

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates too large, or too small, for what is left in the other cell."""
        return climb_strikes(self.cells[::-1], pencil, 1)

    def moved(self, move: Move) -> "Greater":
        """The cells moved; exchanged where a disguise turns the order of digits about."""
        one, other = self.cells[::-1] if move.reverses else self.cells
        return Greater((move.cell(one), move.cell(other)))

    def facets(self, digits: int) -> Facets:
        """The first cell holds more than the second, and the mark says nothing else."""
        return rising(self.cells[::-1])


def make(texts: Several[Node], reader: Reader) -> tuple[Greater, ...]:
    """Two neighbours with a sign between them, `>` or `<`, for each text."""
    pairs = (_pair(text.value, reader) for text in texts.value)
    return tuple(pair for pair in pairs if pair is not None)


def _pair(node: Node, reader: Reader) -> Greater | None:
    parts = reader.word_places(node, PART) if isinstance(node, Text) else ()
    if len(parts) != 3 or parts[1][1] not in ("<", ">"):
        expected = "two cells with a sign between them, such as r1c1 > r1c2"
        reader.problems.expected(node.place, describe(node), expected)
        return None
    one, other = reader.cell_at(*parts[0]), reader.cell_at(*parts[2])
    if one is None or other is None:
        return None
    if not reader.board.share_edge(one, other):
        found = f"{parts[0][1]} and {parts[2][1]}"
        reader.problems.expected(parts[2][0], found, "two cells that share an edge")
        return None
    return Greater((one, other) if parts[1][1] == ">" else (other, one))


def draw(board: Board, signs: Sequence[Greater]) -> tuple[Mark, ...]:
    """A sign on the edge, open towards the larger."""
    return tuple(Sign("greater", sign.cells, "greater") for sign in signs)


RULE = Rule(
    name="greater",
    meaning="A sign between two cells opens towards the larger digit.",
    marks="a list such as `r1c1 > r1c2`",
    grammar=SIGNS,
    make=make,
    draw=draw,
    says=partial(one_sentence, "greater"),
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Higher bank
kind: latin
size: 4
rules:
  greater:
    - r1c1 > r1c2
    - r1c3 > r1c2
    - r1c3 > r1c4
    - r2c4 > r1c4
    - r2c3 > r2c2
    - r3c3 > r2c3
    - r3c3 > r3c4
givens: |
  . . 3 .
  . . . .
  . . . .
  . . . .
""",
)
