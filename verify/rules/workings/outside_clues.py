"""Clues outside the grid: the workings that rules with a number or a digit outside share.

Such a clue looks along a row or a column, whose digits differ on nearly every board; the bounds
of what can be asked for suppose that they do. Clauses, plain checks and strikes suppose nothing.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import Final

from verify.board import Board, Cell
from verify.pencil import Mask, Pencil, Strike
from verify.reading.node import Node
from verify.reading.outside import Line
from verify.reading.reader import Reader
from verify.reading.schema import Schema, clues

NUMBERS: Final[Schema] = clues({"type": "integer", "minimum": 0})
"""The schema of a mapping from places outside to numbers."""

DIGIT: Final[Schema] = {"type": "integer", "minimum": 1}
DIGITS: Final[Schema] = clues(DIGIT)
"""The schema of a mapping from places outside to digits."""


def read_numbers(
    node: Node,
    reader: Reader,
    bounds: Callable[[int], tuple[int, int]],
    what: str,
    *,
    diagonal: bool = False,
) -> Iterator[tuple[Line, int]]:
    """Each line of a mapping with its number.

    `bounds` gives the least and the largest number for a line of so many cells; `what` names
    the number in a problem: "the sum of a sandwich".
    """
    for line, clue in reader.clues(node, diagonal=diagonal):
        number = reader.whole(clue, *bounds(len(line.cells)), what)
        if number is not None:
            yield line, number


def first_box(line: Line, board: Board) -> tuple[Cell, ...]:
    """The first cells of a row or column, as many as a box is long in that direction.

    The board has boxes.
    """
    height, width = board.boxes or (0, 0)
    return line.cells[: height if line.outside.direction in "ns" else width]


def has_boxes(node: Node, reader: Reader, what: str) -> bool:
    """Whether the board has boxes; a problem where not, for `what` in the plural."""
    if reader.board.boxes is None:
        expected = "a board with boxes, which say how many cells count"
        reader.problems.expected(node.place, f"{what} on a board without boxes", expected)
    return reader.board.boxes is not None


def strikes_but(
    kept: Iterable[tuple[Cell, Mask]], cells: tuple[Cell, ...], pencil: Pencil
) -> Iterator[Strike]:
    """Strikes all but what each cell keeps; all `cells` of the clue are the reason."""
    for cell, digits in kept:
        struck = pencil[cell] & ~digits
        if struck:
            yield Strike(((cell, struck),), cells)
