"""Arrows of every kind: how they are written, read and drawn; a rule says what the shaft makes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Protocol

from verify.board import Board, Cell
from verify.marks import Mark, Trail
from verify.move import Move
from verify.reading.node import Fields, Node
from verify.reading.reader import Reader
from verify.reading.schema import PATH, Schema
from verify.rule import Saying
from verify.rules.workings.sums import Terms

LONGEST_TOTAL: Final = 3
LARGEST_FIGURE: Final = 9
"""A total of several cells reads as a number only where each digit is one figure."""

ARROWS: Final[Schema] = {
    "type": "array",
    "minItems": 1,
    "items": {
        "anyOf": [
            PATH,
            {
                "type": "object",
                "properties": {"total": PATH, "shaft": PATH},
                "required": ["total", "shaft"],
                "additionalProperties": False,
            },
        ]
    },
}


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
    """An arrow as a manifest writes it."""

    total: tuple[Cell, ...]
    shaft: tuple[Cell, ...]


def number_terms(total: Sequence[Cell]) -> Terms:
    """The circled cells, each with what its digit counts in their number."""
    last = len(total) - 1
    return [(cell, 10 ** (last - index)) for index, cell in enumerate(total)]


def read_arrows(node: Node, reader: Reader) -> Iterator[tuple[Node, Shape]]:
    """A list of paths from the circle, or of `{total: PATH, shaft: PATH}`; each with its node."""
    for item in reader.each(node, "a list of arrows"):
        shape = _from_fields(item, reader) if isinstance(item, Fields) else _from_path(item, reader)
        if shape is not None and _reads_as_number(shape, item, reader):
            yield item, shape


def _from_path(item: Node, reader: Reader) -> Shape | None:
    path = reader.path(item)
    if path is None:
        return None
    if len(path) < 2:
        reader.problems.expected(item.place, "an arrow of one cell", "a circle and its shaft")
        return None
    return Shape(path[:1], path[1:])


def _from_fields(item: Fields, reader: Reader) -> Shape | None:
    fields = reader.fields(item, ["total", "shaft"])
    total_node, shaft_node = item.get("total"), item.get("shaft")
    if fields is None or total_node is None or shaft_node is None:
        return None
    total, shaft = reader.path(total_node), reader.path(shaft_node)
    if shaft is None or total is None:
        return None
    if len(total) > LONGEST_TOTAL:
        found = f"a total of {len(total)} cells"
        reader.problems.expected(total_node.place, found, f"one to {LONGEST_TOTAL}")
        return None
    if not _reads_on(total, reader.board):
        found = " ".join(map(reader.board.name, total))
        expected = "circled cells in a row from the left, or in a column from the top"
        reader.problems.expected(total_node.place, found, expected)
        return None
    if set(shaft) & set(total) or not any(reader.board.touch(shaft[0], cell) for cell in total):
        found = f"a shaft from {reader.board.name(shaft[0])}"
        expected = "one that starts beside the circled cells and stays off them"
        reader.problems.expected(shaft_node.place, found, expected)
        return None
    return Shape(total, shaft)


def _reads_on(total: Sequence[Cell], board: Board) -> bool:
    """Whether the cells stand as a number is read: rightwards or downwards, side by side."""
    steps = {after - before for before, after in pairwise(total)}
    return not steps or steps in ({1}, {board.columns})


def total_stays(arrow: Arrowed, move: Move) -> bool:
    """Whether the circled cells are still read as a number, and as the same, after a move."""
    return _reads_on(move.all(arrow.total), move.after)


def _reads_as_number(shape: Shape, item: Node, reader: Reader) -> bool:
    if len(shape.total) == 1 or reader.board.digits <= LARGEST_FIGURE:
        return True
    expected = f"one circled cell on a board of more than {LARGEST_FIGURE} digits"
    reader.problems.expected(item.place, "a total of several cells", expected)
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
