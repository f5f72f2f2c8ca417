"""Clones: shapes that hold the same digits, cell by cell."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Area, Mark
from verify.pencil import Grid, Pencil, Strike, digits_of
from verify.proof.formula import Formula
from verify.reading.node import Items, Node, describe
from verify.reading.reader import Reader
from verify.reading.schema import GROUP
from verify.rules.lettered import letter
from verify.rules.rule import Rule, Saying


@dataclass(frozen=True, slots=True)
class Clone:
    """Cells in the same places of two shapes hold the same digits."""

    one: tuple[Cell, ...]
    other: tuple[Cell, ...]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Both shapes."""
        return self.one + self.other

    def clauses(self, formula: Formula) -> None:
        """A digit in a cell stands in its twin, and the other way round."""
        for one, other in zip(self.one, self.other, strict=True):
            for digit in digits_of(formula.pencil[one] | formula.pencil[other]):
                here, there = formula.literal(one, digit), formula.literal(other, digit)
                formula.implies(here, [there])
                formula.implies(there, [here])

    def holds(self, grid: Grid) -> bool:
        """The same digits in the same order."""
        return [grid[cell] for cell in self.one] == [grid[cell] for cell in self.other]

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """What only one of two twins can hold."""
        for one, other in zip(self.one, self.other, strict=True):
            for here, there in ((one, other), (other, one)):
                struck = pencil[here] & ~pencil[there]
                if struck:
                    yield Strike(((here, struck),), (there,))

    def moved(self, move: Move) -> "Clone":
        """The cells moved."""
        return Clone(move.all(self.one), move.all(self.other))


def read(node: Node, reader: Reader) -> tuple[Clone, ...]:
    """A list of `[GROUP, GROUP]`, the second the first one shifted."""
    clones = []
    for item in reader.each(node, "a list of pairs of groups"):
        if not isinstance(item, Items) or len(item.items) != 2:
            reader.problems.expected(item.place, describe(item), "two groups of one shape")
            continue
        one, other = (reader.group(part) for part in item.items)
        if one is None or other is None:
            continue
        if _shape(reader.board, one) != _shape(reader.board, other):
            reader.problems.expected(
                item.items[1].place, "a shape of another outline", "the first one shifted"
            )
        elif set(one) & set(other):
            shared = reader.board.name(min(set(one) & set(other)))
            reader.problems.expected(
                item.items[1].place, f"{shared} in both shapes", "shapes that share no cell"
            )
        else:
            clones.append(Clone(one, other))
    return tuple(clones)


def _shape(board: Board, cells: Sequence[Cell]) -> list[tuple[int, int]]:
    """Rows down and columns right of each cell from the first one."""
    top, left = board.place(cells[0])
    return [(board.place(cell)[0] - top, board.place(cell)[1] - left) for cell in cells]


def draw(board: Board, clones: Sequence[Clone]) -> tuple[Mark, ...]:
    """Two shaded shapes each, with a letter where there are several pairs."""
    return tuple(
        Area("clone", cells, letter(index) if len(clones) > 1 else "")
        for index, clone in enumerate(clones)
        for cells in (clone.one, clone.other)
    )


def says(clones: Sequence[Clone]) -> tuple[Saying, ...]:
    """One sentence."""
    return (Saying("clone", len(clones)),)


RULE = Rule(
    name="clone",
    meaning="Two shapes hold the same digits, cell by cell.",
    marks="a list of `[GROUP, GROUP]`",
    schema={
        "type": "array",
        "items": {"type": "array", "items": GROUP, "minItems": 2, "maxItems": 2},
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN, Disguise.RELABEL}),
    example="""\
title: Twin pools
kind: sudoku
size: 6
rules:
  clone:
    - [r1c1 s e, r4c4 s e]
    - [r1c5 e s, r4c2 e s]
givens: |
  . 2 . | 6 . .
  . . . | . 3 .
  -------------
  . . . | . 5 .
  1 . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
)
