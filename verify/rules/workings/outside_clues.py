"""Clues outside the grid: the workings that rules with a number or a digit outside share.

Such a clue looks along a row or a column, whose digits differ on nearly every board; the bounds
of what can be asked for suppose that they do. Clauses, plain checks and strikes suppose nothing.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Final, Protocol, TypeAlias

from verify.board import Board, Cell, Outside
from verify.marks import Clue, Mark
from verify.pencil import Mask, Pencil, Strike
from verify.reading.grammar import Clues, Grammar, Placed, Seen, whole_from
from verify.reading.node import Node, Place
from verify.reading.outside import Line
from verify.reading.reader import Reader

NUMBERS: Final[Grammar[Seen[Node]]] = Clues(whole_from(0))
"""Numbers outside."""

DIGIT: Final = whole_from(1)
DIGITS: Final[Grammar[Seen[Node]]] = Clues(DIGIT)
"""Digits outside."""

Numbers: TypeAlias = Placed[Seen[Node]]
"""Each line with its number or digit, which is still to be read."""


def bounded(
    clues: Numbers, reader: Reader, bounds: Callable[[int], tuple[int, int]], what: str
) -> Iterator[tuple[Line, int]]:
    """Each line with its number.

    `bounds` gives the least and the largest number for a line of so many cells; `what` names
    the number in a problem: "the sum of a sandwich".
    """
    for line, clue in clues.value:
        number = reader.whole(clue.value, *bounds(len(line.cells)), what)
        if number is not None:
            yield line, number


class Totalled(Protocol):
    """A mark with a sum outside."""

    @property
    def outside(self) -> Outside:
        """Where the sum stands."""
        ...

    @property
    def total(self) -> int:
        """The sum."""
        ...


def totals_outside(role: str, board: Board, sums: Sequence[Totalled]) -> tuple[Mark, ...]:
    """Each sum outside."""
    return tuple(Clue(role, each.outside, str(each.total)) for each in sums)


def first_box(line: Line, board: Board) -> tuple[Cell, ...]:
    """The first cells of a row or column, as many as a box is long in that direction.

    The board has boxes.
    """
    height, width = board.boxes or (0, 0)
    return line.cells[: height if line.outside.direction in "ns" else width]


def has_boxes(place: Place, reader: Reader, what: str) -> bool:
    """Whether the board has boxes; a problem where not, for `what` in the plural."""
    if reader.board.boxes is None:
        expected = "a board with boxes, which say how many cells count"
        reader.problems.expected(place, f"{what} on a board without boxes", expected)
    return reader.board.boxes is not None


def strikes_but(
    kept: Iterable[tuple[Cell, Mask]], cells: tuple[Cell, ...], pencil: Pencil
) -> Iterator[Strike]:
    """Strikes all but what each cell keeps; all `cells` of the clue are the reason."""
    for cell, digits in kept:
        struck = pencil[cell] & ~digits
        if struck:
            yield Strike(((cell, struck),), cells)
