"""Digits on a corner that stand among the four cells around it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, permutations
from typing import Annotated, Final

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.marks import Badge, Mark
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, bit
from verify.reading.grammar import CELL, Each, Entry, Listed, Part, Several, whole_from
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.corners import AROUND, Corner, moved_corner, new_corner

DIGITS: Final = Listed(whole_from(1), "a list of digits such as [1, 2]", most=AROUND)


@dataclass(frozen=True, slots=True)
class Quad:
    """Each of `digits`, rising, stands around the corner at least as often as it is listed."""

    cells: Corner
    digits: tuple[int, ...]

    def clauses(self, formula: Formula) -> None:
        """Of any 5 - k cells around the corner one holds a digit that is listed k times."""
        for digit in dict.fromkeys(self.digits):
            placed = [formula.literal(cell, digit) for cell in self.cells]
            for enough in combinations(placed, AROUND + 1 - self.digits.count(digit)):
                formula.some(enough)

    def holds(self, grid: Grid) -> bool:
        """Each listed digit stands around the corner as often as it is listed, or more often."""
        around = [grid[cell] for cell in self.cells]
        return all(around.count(digit) >= self.digits.count(digit) for digit in self.digits)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that leave the listed ones too little room in the other cells."""
        for cell, kept in zip(self.cells, self._survivors(pencil), strict=True):
            struck = pencil[cell] & ~kept
            if struck:
                others = tuple(other for other in self.cells if other != cell)
                yield Strike(((cell, struck),), others)

    def moved(self, move: Move) -> "Quad":
        """The cells moved, and what the digits become."""
        digits = sorted(move.digits[digit] for digit in self.digits)
        return Quad(moved_corner(self.cells, move), tuple(digits))

    def _survivors(self, pencil: Pencil) -> list[Mask]:
        """For each cell, the candidates that stand with all listed digits placed somewhere."""
        masks = [pencil[cell] for cell in self.cells]
        kept = [0] * AROUND
        for places in permutations(range(AROUND), len(self.digits)):
            left = masks.copy()
            for index, digit in zip(places, self.digits, strict=True):
                left[index] &= bit(digit)
            if all(left):
                kept = [before | more for before, more in zip(kept, left, strict=True)]
                if kept == masks:
                    break
        return kept


@dataclass(frozen=True, slots=True)
class Written:
    """A quad as a manifest writes it, at the upper left of the four cells."""

    at: Annotated[Part[Cell], CELL]
    digits: Annotated[Part[Each[Node]], DIGITS]


def make(marks: Several[Written], reader: Reader) -> tuple[Quad, ...]:
    """Up to four digits each, on corners that none before has."""
    quads = []
    taken: set[Corner] = set()
    for mark in marks.value:
        corner = new_corner(mark.value.at, taken, reader)
        digits = _digits(mark.value.digits, reader)
        if corner is not None and digits:
            quads.append(Quad(corner, digits))
    return tuple(quads)


def _digits(listed: Part[Each[Node]], reader: Reader) -> tuple[int, ...]:
    """The digits of a quad, rising; none with a problem where they can't all be read."""
    nodes, largest = listed.value or (), reader.board.digits
    if len(nodes) > AROUND:
        expected = f"at most {AROUND}, one for each cell"
        reader.problems.expected(listed.place, f"{len(nodes)} digits", expected)
        return ()
    digits = [reader.whole(node.value, 1, largest, "a digit of a quad") for node in nodes]
    sound = sorted(digit for digit in digits if digit is not None)
    return tuple(sound) if len(sound) == len(digits) else ()


def draw(board: Board, quads: Sequence[Quad]) -> tuple[Mark, ...]:
    """A badge with the digits on the corner."""
    return tuple(Badge("quad", quad.cells, digits=quad.digits) for quad in quads)


def says(quads: Sequence[Quad]) -> tuple[Saying, ...]:
    """One sentence, and one more where a digit is listed again."""
    repeats = any(len(set(quad.digits)) < len(quad.digits) for quad in quads)
    return (Saying("quad", len(quads)), *((Saying("quad-repeats"),) if repeats else ()))


RULE = Rule(
    name="quad",
    meaning="Digits on a corner stand among the four cells around it, each as often as listed.",
    marks="a list of `{at: r1c1, digits: [1, 2]}`, at the upper left of the four cells",
    grammar=Listed(Entry(Written), "a list of quads such as {at: r1c1, digits: [1, 2]}"),
    make=make,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.RELABEL, Disguise.REVERSE}),
    example="""\
title: Corner stakes
kind: sudoku
size: 6
rules:
  quad:
    - {at: r1c2, digits: [1, 3, 4, 5]}
    - {at: r1c5, digits: [1, 4, 6]}
    - {at: r2c1, digits: [1]}
    - {at: r2c4, digits: [2, 3, 3, 4]}
    - {at: r3c3, digits: [1, 1, 3, 6]}
    - {at: r4c2, digits: [6, 6]}
    - {at: r4c5, digits: [2, 5, 5]}
    - {at: r5c1, digits: [3, 5, 6]}
    - {at: r5c4, digits: [2, 4, 6]}
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
