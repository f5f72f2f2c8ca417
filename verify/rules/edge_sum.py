"""Edge sums: the first cells seen from outside sum to the clue."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell, Outside
from verify.disguise import Disguise, Move
from verify.marks import Clue, Mark
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import clues as clues_schema
from verify.rules.rule import Rule, Saying
from verify.rules.sums import sum_survivors


@dataclass(frozen=True, slots=True)
class EdgeSum:
    """The digits of the cells, the first ones seen from `outside`, sum to `total`."""

    outside: Outside
    cells: tuple[Cell, ...]
    total: int
    digits: int

    def clauses(self, formula: Formula) -> None:
        """A plain sum."""
        formula.total(dict.fromkeys(self.cells, 1), self.total)

    def holds(self, grid: Grid) -> bool:
        """Sum them."""
        return sum(grid[cell] for cell in self.cells) == self.total

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no choice with that sum."""
        terms = [(cell, 1) for cell in self.cells]
        for cell, kept in sum_survivors(terms, pencil, 1 << self.total):
            if pencil[cell] & ~kept:
                yield Strike(((cell, pencil[cell] & ~kept),), self.cells)

    def moved(self, move: Move) -> "EdgeSum":
        """The place and the cells moved, and the sum of what each digit becomes."""
        total = len(self.cells) * (self.digits + 1) - self.total if move.reverses else self.total
        outside, cells = move.outside(self.outside), move.all(self.cells)
        return EdgeSum(outside, cells, total, self.digits)


def read(node: Node, reader: Reader) -> tuple[EdgeSum, ...]:
    """`{cells: N, sums: {PLACE: SUM}}`."""
    fields = reader.fields(node, ["cells", "sums"])
    count_node, sums = (fields.get("cells"), fields.get("sums")) if fields else (None, None)
    if count_node is None or sums is None:
        return ()
    digits = reader.board.digits
    count = reader.whole(count_node, 1, digits, "the number of cells that each sum counts")
    found = []
    for line, clue in reader.clues(sums):
        cells = line.cells[: count or 1]
        if count is not None and len(cells) < count:
            reader.problems.expected(clue.place, f"a line of {len(cells)} cells", str(count))
            continue
        total = reader.whole(clue, len(cells), len(cells) * digits, f"the sum of {len(cells)}")
        if total is not None and count is not None:
            found.append(EdgeSum(line.outside, cells, total, digits))
    return tuple(found)


def draw(board: Board, sums: Sequence[EdgeSum]) -> tuple[Mark, ...]:
    """Each sum at its place."""
    return tuple(Clue("outside", each.outside, str(each.total)) for each in sums)


def says(sums: Sequence[EdgeSum]) -> tuple[Saying, ...]:
    """One sentence, with how many cells are summed."""
    values = (("cells", str(len(sums[0].cells))),)
    return (Saying("edge-sum", len(sums), values),)


RULE = Rule(
    name="edge-sum",
    meaning="The first cells seen from a clue outside sum to it.",
    marks="`{cells: 3, sums: {top c1: 12, ...}}`",
    schema={
        "type": "object",
        "required": ["cells", "sums"],
        "properties": {
            "cells": {"type": "integer", "minimum": 1},
            "sums": clues_schema({"type": "integer", "minimum": 1}),
        },
        "additionalProperties": False,
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.REVERSE}),
    example="""\
title: Near the bank
kind: sudoku
size: 6
rules:
  edge-sum:
    cells: 2
    sums:
      top c2: 4
      top c3: 10
      left r1: 6
      left r3: 8
      left r5: 9
      right r1: 8
      right r3: 5
      bottom c3: 7
      bottom c5: 6
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
