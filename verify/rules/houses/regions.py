"""Irregular regions instead of boxes, drawn as a letter map."""

from functools import partial
from typing import Final

from verify.board import Cell
from verify.move import EVERY_DISGUISE, Disguise
from verify.reading.grammar import Leaf, Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.distinct import Distinct
from verify.rules.workings.houses import bordered, told_with_houses

LETTER_MAP: Final[Leaf[tuple[str, ...]]] = Leaf(
    Reader.letter_map,
    {"type": "string", "description": "a letter map: one letter a cell, one line a row"},
)


def make(letters: Placed[tuple[str, ...]], reader: Reader) -> tuple[Distinct, ...]:
    """The cells of each letter; as many regions as digits, each with as many cells."""
    regions: dict[str, list[Cell]] = {}
    for cell in reader.board.cells:
        regions.setdefault(letters.value[cell], []).append(cell)
    digits = reader.board.digits
    for letter, cells in sorted(regions.items()):
        if len(cells) > digits or (len(cells) < digits and not reader.board.absent):
            found = f"a region {letter} of {len(cells)} cells"
            reader.problems.expected(letters.place, found, f"{digits}, as many as there are digits")
    return tuple(Distinct("region", tuple(regions[letter])) for letter in sorted(regions))


RULE = Rule(
    name="regions",
    meaning="Regions of any outline take the place of boxes; no digit stands twice in one.",
    marks="a letter map: one letter a cell, one line a row",
    grammar=LETTER_MAP,
    make=make,
    draw=partial(bordered, "region"),
    says=partial(told_with_houses, "region"),
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
