"""Arrows of every kind: how they are written, read and drawn; a rule says what the shaft makes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, Final, Protocol, TypeAlias

from verify.board import Board, Cell
from verify.marks import Mark, Trail
from verify.move import Move
from verify.reading.grammar import PATH, Cells, Either, Entry, Grammar, Listed, Part, Placed
from verify.reading.node import Place
from verify.reading.reader import Reader
from verify.rule import Saying
from verify.rules.workings.sums import Terms

LONGEST_TOTAL: Final = 3
LARGEST_FIGURE: Final = 9
"""A total of several cells reads as a number only where each digit is one figure."""


@dataclass(frozen=True, slots=True)
class Written:
    """An arrow as a manifest writes it where its circle is longer than a cell."""

    total: Annotated[Part[Cells], PATH]
    shaft: Annotated[Part[Cells], PATH]


Arrows: TypeAlias = tuple[Placed[Cells | Written], ...]

ARROW: Final[Grammar[Cells | Written]] = Either(PATH, Entry(Written))
"""A path from the circle to the head, or both parts."""

ARROWS: Final[Grammar[Arrows]] = Listed(ARROW, "a list of arrows")


class Arrowed(Protocol):
    """A mark with circled cells and a shaft."""

    @property
    def total(self) -> tuple[Cell, ...]:
        """The circled cells, as their number is read."""
        ...

    @property
    def shaft(self) -> tuple[Cell, ...]:
        """The cells from the circle to the head."""
        ...


@dataclass(frozen=True, slots=True)
class Shape:
    """The circle and the shaft of an arrow."""

    total: tuple[Cell, ...]
    shaft: tuple[Cell, ...]


def number_terms(total: Sequence[Cell]) -> Terms:
    """The circled cells, each with what its digit counts in their number."""
    last = len(total) - 1
    return [(cell, 10 ** (last - index)) for index, cell in enumerate(total)]


def shapes(arrows: Placed[Arrows], reader: Reader) -> Iterator[tuple[Place, Shape]]:
    """The place, circle and shaft of each arrow; a problem where they can't be one."""
    for arrow in arrows.value:
        if isinstance(arrow.value, Written):
            shape = _of_parts(arrow.value, reader)
        else:
            shape = _of_path(arrow.value, arrow.place, reader)
        if shape is not None and _reads_as_number(shape, arrow.place, reader):
            yield arrow.place, shape


def _of_path(path: Cells, place: Place, reader: Reader) -> Shape | None:
    if len(path) < 2:
        reader.problems.expected(place, "an arrow of one cell", "a circle and its shaft")
        return None
    return Shape(path[:1], path[1:])


def _of_parts(written: Written, reader: Reader) -> Shape | None:
    total, shaft = written.total.value, written.shaft.value
    if shaft is None or total is None:
        return None
    if len(total) > LONGEST_TOTAL:
        found = f"a total of {len(total)} cells"
        reader.problems.expected(written.total.place, found, f"one to {LONGEST_TOTAL}")
        return None
    if not _reads_on(total, reader.board):
        found = " ".join(map(reader.board.name, total))
        expected = "circled cells in a row from the left, or in a column from the top"
        reader.problems.expected(written.total.place, found, expected)
        return None
    if set(shaft) & set(total) or not any(reader.board.touch(shaft[0], cell) for cell in total):
        found = f"a shaft from {reader.board.name(shaft[0])}"
        expected = "one that starts beside the circled cells and stays off them"
        reader.problems.expected(written.shaft.place, found, expected)
        return None
    return Shape(total, shaft)


def _reads_on(total: Sequence[Cell], board: Board) -> bool:
    """Whether the cells stand as a number is read: rightwards or downwards, side by side."""
    steps = {after - before for before, after in pairwise(total)}
    return not steps or steps in ({1}, {board.columns})


def total_stays(arrow: Arrowed, move: Move) -> bool:
    """Whether the circled cells are still read as a number, and as the same, after a move."""
    return _reads_on(move.all(arrow.total), move.after)


def _reads_as_number(shape: Shape, place: Place, reader: Reader) -> bool:
    if len(shape.total) == 1 or reader.board.digits <= LARGEST_FIGURE:
        return True
    expected = f"one circled cell on a board of more than {LARGEST_FIGURE} digits"
    reader.problems.expected(place, "a total of several cells", expected)
    return False


def draw_arrows(role: str, board: Board, arrows: Sequence[Arrowed]) -> tuple[Mark, ...]:
    """A ring for each total, with all the shafts that leave it."""
    shafts: dict[tuple[Cell, ...], list[tuple[Cell, ...]]] = {}
    for arrow in arrows:
        root = min(arrow.total, key=lambda cell: _distance(board, cell, arrow.shaft[0]))
        shafts.setdefault(arrow.total, []).append((root, *arrow.shaft))
    return tuple(
        Trail(role, tuple(branches), end="arrowhead", ring=total)
        for total, branches in shafts.items()
    )


def _distance(board: Board, one: Cell, other: Cell) -> int:
    (r1, c1), (r2, c2) = board.place(one), board.place(other)
    return (r1 - r2) ** 2 + (c1 - c2) ** 2


def arrows_say(key: str, arrows: Sequence[Arrowed]) -> tuple[Saying, ...]:
    """One sentence, and one more where a total has several cells."""
    several = any(len(arrow.total) > 1 for arrow in arrows)
    return (Saying(key, len(arrows)), *([Saying(f"{key}-total")] if several else []))
