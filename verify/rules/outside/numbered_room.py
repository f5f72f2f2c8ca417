"""Numbered rooms: the first digit says in which cell of the line the digit outside stands."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from verify.board import Board, Cell, Outside
from verify.formula.formula import Formula
from verify.marks import Clue, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Pencil, Strike, bit
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.outside_clues import DIGITS, Numbers, bounded, strikes_but
from verify.rules.workings.parts import one_sentence


@dataclass(frozen=True, slots=True)
class NumberedRoom:
    """With N in the first cell, `digit` stands in the N-th, the first cell being the 1st."""

    cells: tuple[Cell, ...]
    outside: Outside
    digit: int

    def clauses(self, formula: Formula) -> None:
        """N in the first cell puts `digit` in the N-th; no N is larger than the line is long."""
        for number in range(1, formula.digits + 1):
            rooms = self.cells[number - 1 : number]
            there = [formula.literal(room, self.digit) for room in rooms]
            formula.implies(formula.literal(self.cells[0], number), there)

    def holds(self, grid: Grid) -> bool:
        """The cell that the first digit counts to holds `digit`."""
        number = grid[self.cells[0]]
        return number <= len(self.cells) and grid[self.cells[number - 1]] == self.digit

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """First digits whose cell can't hold `digit`; the rest of a cell that must hold it."""
        first, wanted = self.cells[0], bit(self.digit)
        rooms = {
            bit(number): room
            for number, room in enumerate(self.cells, start=1)
            if pencil[first] >> number & 1
            and pencil[room] & wanted
            and (room != first or number == self.digit)
        }
        kept = {first: sum(rooms)}
        if len(rooms) == 1:
            (room,) = rooms.values()
            kept[room] = wanted
        return strikes_but(kept.items(), self.cells, pencil)

    def moved(self, move: Move) -> "NumberedRoom":
        """The line moved."""
        return NumberedRoom(move.all(self.cells), move.outside(self.outside), self.digit)


def make(clues: Numbers, reader: Reader) -> tuple[NumberedRoom, ...]:
    """A mapping from places outside to digits."""

    def bounds(cells: int) -> tuple[int, int]:
        return 1, reader.board.digits if cells > 1 else 1

    digits = bounded(clues, reader, bounds, "the digit of a numbered room")
    return tuple(NumberedRoom(line.cells, line.outside, digit) for line, digit in digits)


def draw(board: Board, rooms: Sequence[NumberedRoom]) -> tuple[Mark, ...]:
    """Each digit outside, as the puzzle's symbol."""
    return tuple(Clue("outside", each.outside, digits=(each.digit,)) for each in rooms)


RULE = Rule(
    name="numbered-room",
    meaning="The first digit says in which cell, counted from there, the digit outside stands.",
    marks="a mapping from places outside to digits",
    grammar=DIGITS,
    make=make,
    draw=draw,
    says=partial(one_sentence, "numbered-room"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Berth numbers
kind: sudoku
size: 6
rules:
  numbered-room:
    top c1: 4
    top c3: 1
    top c4: 3
    top c6: 3
    bottom c2: 3
    bottom c3: 5
    bottom c5: 3
    left r2: 1
    left r4: 1
    left r6: 1
    right r1: 2
    right r3: 1
    right r5: 5
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
