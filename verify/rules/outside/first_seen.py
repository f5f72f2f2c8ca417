"""Digits seen first: they stand among the first cells, as many as a box is long."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations

from verify.board import Board, Cell, Outside
from verify.formula.formula import Formula
from verify.marks import Clue, Mark
from verify.move import EVERY_DISGUISE, Disguise, Move
from verify.pencil import Grid, Pencil, Strike, bit
from verify.reading.grammar import Clues, OneOrMore, Placed, Seen
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.outside_clues import DIGIT, first_box, has_boxes, strikes_but


@dataclass(frozen=True, slots=True)
class FirstSeen:
    """Each of the digits, which differ, stands in one of the cells at least."""

    cells: tuple[Cell, ...]
    outside: Outside
    digits: tuple[int, ...]

    def clauses(self, formula: Formula) -> None:
        """Each digit stands in one of the cells."""
        for digit in self.digits:
            formula.some(formula.literal(cell, digit) for cell in self.cells)

    def holds(self, grid: Grid) -> bool:
        """Each digit is found in the cells."""
        return set(self.digits) <= {grid[cell] for cell in self.cells}

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates in no way of placing the clue's digits in different cells."""
        kept = dict.fromkeys(self.cells, 0)
        for chosen in permutations(self.cells, len(self.digits)):
            laid = dict(zip(chosen, self.digits, strict=True))
            if all(pencil[cell] >> digit & 1 for cell, digit in laid.items()):
                for cell in self.cells:
                    kept[cell] |= bit(laid[cell]) if cell in laid else pencil[cell]
        return strikes_but(kept.items(), self.cells, pencil)

    def moved(self, move: Move) -> "FirstSeen":
        """The cells moved, and what each digit becomes."""
        digits = tuple(sorted(move.digits[digit] for digit in self.digits))
        return FirstSeen(move.all(self.cells), move.outside(self.outside), digits)


def make(clues: Placed[Seen[tuple[Node, ...]]], reader: Reader) -> tuple[FirstSeen, ...]:
    """Different digits outside, on a board with boxes."""
    if not has_boxes(clues.place, reader, "digits seen first"):
        return ()
    found = []
    for line, clue in clues.value:
        cells = first_box(line, reader.board)
        digits = _digits(clue, len(cells), reader)
        if digits is not None:
            found.append(FirstSeen(cells, line.outside, digits))
    return tuple(found)


def _digits(clue: Placed[tuple[Node, ...]], most: int, reader: Reader) -> tuple[int, ...] | None:
    """The digits of one clue, rising; None with a problem where they can't all be seen."""
    if len(clue.value) > most:
        found = f"{len(clue.value)} digits"
        reader.problems.expected(clue.place, found, f"at most {most}, as many as a box is long")
        return None
    digits: set[int] = set()
    sound = True
    for node in clue.value:
        digit = reader.whole(node, 1, reader.board.digits, "a digit seen first")
        if digit in digits:
            reader.problems.expected(node.place, f"{digit} again", "each digit once")
        if digit is None or digit in digits:
            sound = False
        else:
            digits.add(digit)
    return tuple(sorted(digits)) if sound else None


def draw(board: Board, found: Sequence[FirstSeen]) -> tuple[Mark, ...]:
    """The digits of each clue outside, as the puzzle's symbols."""
    return tuple(Clue("outside", each.outside, digits=each.digits) for each in found)


def says(found: Sequence[FirstSeen]) -> tuple[Saying, ...]:
    """One sentence, which counts the digits outside."""
    return (Saying("first-seen", sum(len(each.digits) for each in found)),)


RULE = Rule(
    name="first-seen",
    meaning="The digits outside stand among the first cells, as many as a box is long.",
    marks="a mapping from places outside to a digit or a list of digits",
    grammar=Clues(OneOrMore(DIGIT)),
    make=make,
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Hull numbers
kind: sudoku
size: 6
rules:
  first-seen:
    top c2: [1, 4]
    top c4: [4, 6]
    top c5: [1, 3]
    bottom c1: [1, 3]
    bottom c4: [2, 5]
    bottom c6: [1, 3]
    left r2: 5
    left r3: [4, 5]
    left r5: [3, 4]
    right r2: 2
    right r3: [1, 6]
    right r6: [2, 3]
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
