"""Irregular regions instead of boxes, drawn as a letter map."""

from collections.abc import Sequence

from verify.board import Board, Cell
from verify.marks import Border, Mark
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.distinct import Distinct


def read(node: Node, reader: Reader) -> tuple[Distinct, ...]:
    """One letter a cell; as many regions as digits, each with as many cells."""
    letters = reader.letter_map(node)
    if letters is None:
        return ()
    regions: dict[str, list[Cell]] = {}
    for cell in reader.board.cells:
        regions.setdefault(letters[cell], []).append(cell)
    digits = reader.board.digits
    for letter, cells in sorted(regions.items()):
        if len(cells) > digits or (len(cells) < digits and not reader.board.absent):
            found = f"a region {letter} of {len(cells)} cells"
            reader.problems.expected(node.place, found, f"{digits}, as many as there are digits")
    return tuple(Distinct("region", tuple(regions[letter])) for letter in sorted(regions))


def draw(board: Board, regions: Sequence[Distinct]) -> tuple[Mark, ...]:
    """A border around each."""
    return tuple(Border("region", region.cells) for region in regions)


def says(regions: Sequence[Distinct]) -> tuple[Saying, ...]:
    """Told in one sentence with the other houses."""
    return (Saying("houses", values=(("house", "region"),)),)


RULE = Rule(
    name="regions",
    meaning="Regions of any outline take the place of boxes; no digit stands twice in one.",
    marks="a letter map: one letter a cell, one line a row",
    schema={"type": "string", "description": "a letter map: one letter a cell, one line a row"},
    read=read,
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},  # it would tear regions apart
    example="""\
title: Winding creek
kind: sudoku
size: 6
rules:
  regions: |
    A A A B B B
    A A C B B D
    A C C C B D
    E C C F D D
    E E F F D D
    E E E F F F
givens: |
  . . . . . .
  . . 3 . . .
  . . . . 5 2
  6 2 . . . .
  . . . 4 . .
  . . . . . .
""",
)
