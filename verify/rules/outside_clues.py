"""Clues outside the grid: the workings that all rules with such clues share."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Self, TypeVar

from verify.board import Board, Cell, Outside
from verify.disguise import Move
from verify.marks import Clue, Mark
from verify.pencil import Pencil, Strike
from verify.proof.scan import Diagram, survivors
from verify.reading.node import Node
from verify.reading.outside import Line
from verify.reading.reader import Reader

C = TypeVar("C")


@dataclass(frozen=True, slots=True)
class Sight:
    """A place outside, the cells that are seen from there, the nearest first, and a number.

    `digits` is the largest digit of the board.
    """

    outside: Outside
    cells: tuple[Cell, ...]
    number: int
    digits: int

    def moved(self, move: Move) -> Self:
        """The place and the cells moved."""
        return replace(self, outside=move.outside(self.outside), cells=move.all(self.cells))


def ways_strikes(ways: Diagram, cells: Sequence[Cell], pencil: Pencil) -> Iterator[Strike]:
    """Candidates that stand in none of the ways through the cells."""
    removes = tuple(
        (cell, pencil[cell] & ~kept)
        for cell, kept in survivors(ways, cells, pencil)
        if pencil[cell] & ~kept
    )
    if removes:
        yield Strike(removes, tuple(cells))


def read_numbers(
    node: Node,
    reader: Reader,
    make: Callable[[Outside, tuple[Cell, ...], int, int], C],
    bounds: Callable[[Line, int], tuple[int, int]],
    what: str,
    *,
    diagonal: bool = False,
) -> tuple[C, ...]:
    """A mapping from places to numbers; `bounds(line, digits)` are those that can be."""
    found = []
    digits = reader.board.digits
    for line, clue in reader.clues(node, diagonal=diagonal):
        number = reader.whole(clue, *bounds(line, digits), what)
        if number is not None:
            found.append(make(line.outside, line.cells, number, digits))
    return tuple(found)


def draw_numbers(board: Board, clues: Sequence[Sight]) -> tuple[Mark, ...]:
    """The number of each at its place."""
    return tuple(Clue("outside", clue.outside, str(clue.number)) for clue in clues)


def draw_digits(board: Board, clues: Sequence[Sight]) -> tuple[Mark, ...]:
    """The number of each, which is a digit of the puzzle, at its place."""
    return tuple(Clue("outside", clue.outside, digits=(clue.number,)) for clue in clues)
