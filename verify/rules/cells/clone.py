"""Clones: shapes that hold the same digits, cell by cell."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import pairwise
from operator import and_
from typing import Final, TypeAlias

from verify.board import Board, Cell
from verify.formula.formula import Formula
from verify.marks import Area, Mark
from verify.move import EVERY_DISGUISE, Disguise, Move
from verify.pencil import Grid, Pencil, Strike, digits_of
from verify.reading.grammar import GROUP, Cells, Listed, Part, Several, Together
from verify.reading.node import Place
from verify.reading.reader import Reader
from verify.rule import Rule, Saying
from verify.rules.workings.lettered import letter

Shape: TypeAlias = tuple[Cell, ...]

ALIKE: Final = Together(GROUP, "a list of two groups, such as [r1c1 e, r5c5 e]")


@dataclass(frozen=True, slots=True)
class Clone:
    """Shapes of as many cells each, whose first cells are alike, and their second ones, and so on.

    Two shapes or more; no cell stands in two of them.
    """

    shapes: tuple[Shape, ...]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The cells of all shapes, shape by shape."""
        return tuple(cell for shape in self.shapes for cell in shape)

    def clauses(self, formula: Formula) -> None:
        """A cell of one shape holds a digit just where the same cell of the next shape does."""
        for shape, following in pairwise(self.shapes):
            for one, other in zip(shape, following, strict=True):
                for digit in digits_of(formula.pencil[one] | formula.pencil[other]):
                    here, there = formula.literal(one, digit), formula.literal(other, digit)
                    formula.implies(here, [there])
                    formula.implies(there, [here])

    def holds(self, grid: Grid) -> bool:
        """All shapes hold the same digits in the same order."""
        first, *others = ([grid[cell] for cell in shape] for shape in self.shapes)
        return all(other == first for other in others)

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Candidates that the same cell of some other shape can't hold."""
        for twins in zip(*self.shapes, strict=True):
            common = reduce(and_, (pencil[cell] for cell in twins))
            for cell in twins:
                struck = pencil[cell] & ~common
                if struck:
                    because = tuple(twin for twin in twins if twin != cell)
                    yield Strike(((cell, struck),), because)

    def moved(self, move: Move) -> "Clone":
        """Every shape moved."""
        return Clone(tuple(move.all(shape) for shape in self.shapes))


def make(clones: Several[tuple[Part[Cells], ...]], reader: Reader) -> tuple[Clone, ...]:
    """Two groups or more each, all of one shape, and none of them with a cell of another."""
    found = (_clone(clone, reader) for clone in clones.value)
    return tuple(clone for clone in found if clone is not None)


def _clone(clone: Several[Cells | None], reader: Reader) -> Clone | None:
    """One clone."""
    groups = clone.value
    if len(groups) == 1:
        reader.problems.expected(clone.place, "one group", "two groups or more that are alike")
        return None
    shapes: list[Shape] = []
    for group in groups:
        if group.value is not None and _fits(group.value, shapes, group.place, reader):
            shapes.append(group.value)
    return Clone(tuple(shapes)) if len(shapes) == len(groups) else None


def _fits(shape: Shape, shapes: Sequence[Shape], place: Place, reader: Reader) -> bool:
    """Whether it has the shape of those before and none of their cells; else a problem."""
    if shapes and not _alike(reader.board, shapes[0], shape):
        expected = "the first group's shape in another place, not turned"
        reader.problems.expected(place, "another shape than the first group's", expected)
        return False
    taken = {cell for other in shapes for cell in other} & set(shape)
    if taken:
        found = f"{reader.board.name(min(taken))} in two groups of a clone"
        reader.problems.expected(place, found, "groups that do not overlap")
    return not taken


def _alike(board: Board, one: Shape, other: Shape) -> bool:
    """Whether two groups, both sorted, are the same but for where they lie."""
    return _from_first_cell(board, one) == _from_first_cell(board, other)


def _from_first_cell(board: Board, shape: Shape) -> list[tuple[int, int]]:
    """How far down and right of its first cell each cell lies."""
    top, left = board.place(shape[0])
    return [(row - top, column - left) for row, column in map(board.place, shape)]


def draw(board: Board, clones: Sequence[Clone]) -> tuple[Mark, ...]:
    """A ground behind each shape; a letter tells which belong together where that is in doubt."""
    several = len(clones) > 1
    return tuple(
        Area("clone", shape, letter(index) if several else "")
        for index, clone in enumerate(clones)
        for shape in clone.shapes
    )


def says(clones: Sequence[Clone]) -> tuple[Saying, ...]:
    """One sentence; another where letters tell which shapes belong together."""
    key = "clone-letters" if len(clones) > 1 else "clone"
    return (Saying(key, len(clones)),)


RULE = Rule(
    name="clone",
    meaning="Shapes that are clones of each other hold the same digits, cell by cell.",
    marks="a list of `[GROUP, GROUP]`, each pair, or more, of one shape that is not turned",
    grammar=Listed(ALIKE, "a list of clones"),
    make=make,
    draw=draw,
    says=says,
    survives=EVERY_DISGUISE - {Disguise.SHUFFLE},
    example="""\
title: Twin sluices
kind: sudoku
size: 6
rules:
  clone:
    - [r1c1 e s e, r4c4 e s e]
    - [r1c5 s e, r4c1 s e]
givens: |
  . . . | . . .
  3 . . | . . .
  -------------
  . . . | . . .
  . . . | . 6 .
  -------------
  . . . | . . .
  2 1 . | . 4 .
""",
)
