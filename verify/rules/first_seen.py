"""First seen: the clue's digits stand among the first cells, as many as a box is long."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_

from verify.board import COMPASS, Board, Cell, Outside
from verify.disguise import Disguise, Move
from verify.marks import Clue, Mark
from verify.pencil import Grid, Pencil, Strike, bit
from verify.proof.formula import Formula
from verify.reading.node import Items, Node
from verify.reading.reader import Reader
from verify.reading.schema import clues as clues_schema
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class FirstSeen:
    """Each of `wanted` stands in one of the cells, the first ones seen from `outside`."""

    outside: Outside
    cells: tuple[Cell, ...]
    wanted: tuple[int, ...]

    def clauses(self, formula: Formula) -> None:
        """Some cell for each digit."""
        for digit in self.wanted:
            formula.some(formula.literal(cell, digit) for cell in self.cells)

    def holds(self, grid: Grid) -> bool:
        """All of them are there."""
        return set(self.wanted) <= {grid[cell] for cell in self.cells}

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """All else, where a digit has one cell left, or where there is a cell for each."""
        every = reduce(or_, map(bit, self.wanted))
        if len(self.wanted) == len(self.cells):
            removes = tuple(
                (cell, pencil[cell] & ~every) for cell in self.cells if pencil[cell] & ~every
            )
            if removes:
                yield Strike(removes, self.cells)
        for digit in self.wanted:
            spots = [cell for cell in self.cells if pencil[cell] >> digit & 1]
            if len(spots) == 1 and pencil[spots[0]] != bit(digit):
                yield Strike(((spots[0], pencil[spots[0]] & ~bit(digit)),), self.cells)

    def moved(self, move: Move) -> "FirstSeen":
        """The place and the cells moved, and what the digits become."""
        wanted = tuple(sorted(move.digits[digit] for digit in self.wanted))
        return FirstSeen(move.outside(self.outside), move.all(self.cells), wanted)


def read(node: Node, reader: Reader) -> tuple[FirstSeen, ...]:
    """A mapping from places outside to a digit or a list of digits."""
    board = reader.board
    if board.boxes is None:
        reader.problems.expected(node.place, "a board without boxes", "boxes to count the cells by")
        return ()
    height, width = board.boxes
    found = []
    for line, clue in reader.clues(node):
        upright = COMPASS[line.outside.direction][0]
        cells = line.cells[: height if upright else width]
        wanted = _digits(clue, len(cells), reader)
        if wanted:
            found.append(FirstSeen(line.outside, cells, wanted))
    return tuple(found)


def _digits(clue: Node, most: int, reader: Reader) -> tuple[int, ...]:
    """The digits of one clue, rising; nothing with a problem where they can't all stand there."""
    items = clue.items if isinstance(clue, Items) and clue.items else (clue,)
    digits: set[int] = set()
    for item in items:
        digit = reader.whole(item, 1, reader.board.digits, "a digit by its number")
        if digit is None:
            return ()
        if digit in digits:
            reader.problems.expected(item.place, f"{digit} again", "each digit once")
            return ()
        digits.add(digit)
    if len(digits) > most:
        reader.problems.expected(clue.place, f"{len(digits)} digits", f"at most {most}")
        return ()
    return tuple(sorted(digits))


def draw(board: Board, clues: Sequence[FirstSeen]) -> tuple[Mark, ...]:
    """The digits of each at its place."""
    return tuple(Clue("outside", clue.outside, digits=clue.wanted) for clue in clues)


def says(clues: Sequence[FirstSeen]) -> tuple[Saying, ...]:
    """One sentence; another where boxes are not square."""
    return (Saying("first-seen", len(clues)),)


RULE = Rule(
    name="first-seen",
    meaning="The digits of a clue outside stand among the first cells, as many as a box is long.",
    marks="a mapping from places outside to a digit or a list of digits: `left r2: [3, 7]`",
    schema=clues_schema(
        {
            "oneOf": [
                {"type": "integer", "minimum": 1},
                {"type": "array", "items": {"type": "integer", "minimum": 1}, "minItems": 1},
            ]
        }
    ),
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.RELABEL}),
    example="""\
title: First glimpse
kind: sudoku
size: 6
rules:
  first-seen:
    top c2: [1, 6]
    top c3: [2, 4]
    top c4: [1, 2]
    top c6: [5, 6]
    left r3: [1, 4]
    right r1: 4
    right r5: 6
    bottom c3: [1, 5]
    bottom c4: [3, 5]
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
