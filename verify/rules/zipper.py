"""Zippers: cells at equal distance from the middle of the line sum to its middle digit."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Node
from verify.reading.reader import Reader
from verify.reading.schema import PATHS
from verify.rules.rule import Rule, Saying
from verify.rules.sums import sum_survivors, sums_of


@dataclass(frozen=True, slots=True)
class Zipper:
    """Each two cells at equal distance from the middle one sum to it; an odd number of cells."""

    cells: tuple[Cell, ...]

    @property
    def middle(self) -> Cell:
        """The cell in the middle."""
        return self.cells[len(self.cells) // 2]

    def _pairs(self) -> Iterator[tuple[Cell, Cell]]:
        half = len(self.cells) // 2
        return zip(self.cells[:half], reversed(self.cells[half + 1 :]), strict=True)

    def clauses(self, formula: Formula) -> None:
        """Each pair less the middle is nothing."""
        for one, other in self._pairs():
            formula.total({one: 1, self.middle: -1, other: 1}, 0)

    def holds(self, grid: Grid) -> bool:
        """Fold the line and add."""
        line = [grid[cell] for cell in self.cells]
        half = len(line) // 2
        return all(line[at] + line[-1 - at] == line[half] for at in range(half))

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that no sum of a pair, or no sum to all that the middle can hold, leaves."""
        for one, other in self._pairs():
            sums = sums_of([(one, 1), (other, 1)], pencil)
            beyond = pencil[self.middle] & ~sums
            if beyond:
                yield Strike(((self.middle, beyond),), (one, other))
            terms = [(one, 1), (other, 1)]
            for cell, kept in sum_survivors(terms, pencil, pencil[self.middle]):
                if pencil[cell] & ~kept:
                    yield Strike(((cell, pencil[cell] & ~kept),), (one, other, self.middle))

    def moved(self, move: Move) -> "Zipper":
        """The cells moved."""
        return Zipper(move.all(self.cells))


def read(node: Node, reader: Reader) -> tuple[Zipper, ...]:
    """Paths of an odd number of cells, three or more."""
    found = []
    for item in reader.each(node, "a list of paths"):
        path = reader.path(item)
        if path is None:
            continue
        if len(path) < 3 or len(path) % 2 == 0:
            count = f"{len(path)} cell" + ("s" if len(path) > 1 else "")
            expected = "an odd number of cells, three or more, so that one is in the middle"
            reader.problems.expected(item.place, f"a path of {count}", expected)
        else:
            found.append(Zipper(path))
    return tuple(found)


def draw(board: Board, lines: Sequence[Zipper]) -> tuple[Mark, ...]:
    """A trail each."""
    return tuple(Trail("zipper", (line.cells,)) for line in lines)


def says(lines: Sequence[Zipper]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("zipper", len(lines)),)


RULE = Rule(
    name="zipper",
    meaning="Cells at equal distance from the middle of the line sum to its middle digit.",
    marks="a list of paths, each of an odd number of cells",
    schema=PATHS,
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Zip the coat
kind: sudoku
size: 6
rules:
  zipper:
    - r1c1 s se
    - r6c6 n nw
    - r1c3 e e s s
    - r6c4 w w n n
givens: |
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . 4 . | . . .
""",
)
