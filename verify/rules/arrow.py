"""Arrows: the digits on the shaft sum to the circled number."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from verify.board import Board, Cell
from verify.disguise import Disguise, Move
from verify.marks import Mark, Trail
from verify.pencil import Grid, Pencil, Strike
from verify.proof.formula import Formula
from verify.reading.node import Fields, Node
from verify.reading.reader import Reader
from verify.reading.schema import PATH
from verify.rules.rule import Rule, Saying
from verify.rules.sums import Terms, sum_survivors, sums_of

LONGEST_TOTAL: Final = 3
LARGEST_FIGURE: Final = 9
"""A total of several cells reads as a number only where each digit is one figure."""


@dataclass(frozen=True, slots=True)
class Arrow:
    """The digits of `shaft` sum to the number that the cells of `total` make."""

    total: tuple[Cell, ...]
    shaft: tuple[Cell, ...]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The circled cells, then the shaft."""
        return self.total + self.shaft

    def clauses(self, formula: Formula) -> None:
        """Shaft minus total is 0."""
        weights = dict.fromkeys(self.shaft, 1)
        weights.update((cell, -weight) for cell, weight in self._total_terms())
        formula.total(weights, 0)

    def holds(self, grid: Grid) -> bool:
        """Read the total as a number; sum the shaft."""
        number = int("".join(str(grid[cell]) for cell in self.total))
        return sum(grid[cell] for cell in self.shaft) == number

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no choice whose two sides are equal."""
        total, shaft = self._total_terms(), [(cell, 1) for cell in self.shaft]
        equal = sums_of(total, pencil) & sums_of(shaft, pencil)
        for terms in (total, shaft):
            for cell, kept in sum_survivors(terms, pencil, equal):
                struck = pencil[cell] & ~kept
                if struck:
                    yield Strike(((cell, struck),), self.cells)

    def moved(self, move: Move) -> "Arrow":
        """The cells moved."""
        return Arrow(move.all(self.total), move.all(self.shaft))

    def _total_terms(self) -> Terms:
        last = len(self.total) - 1
        return [(cell, 10 ** (last - index)) for index, cell in enumerate(self.total)]


def read(node: Node, reader: Reader) -> tuple[Arrow, ...]:
    """A list of paths from the circle, or of `{total: PATH, shaft: PATH}`."""
    arrows = []
    for item in reader.each(node, "a list of arrows"):
        arrow = _from_fields(item, reader) if isinstance(item, Fields) else _from_path(item, reader)
        if arrow is not None and _can_be(arrow, item, reader):
            arrows.append(arrow)
    return tuple(arrows)


def _from_path(item: Node, reader: Reader) -> Arrow | None:
    path = reader.path(item)
    if path is None:
        return None
    if len(path) < 2:
        reader.problems.expected(item.place, "an arrow of one cell", "a circle and its shaft")
        return None
    return Arrow(path[:1], path[1:])


def _from_fields(item: Fields, reader: Reader) -> Arrow | None:
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
    return Arrow(total, shaft)


def _reads_on(total: Sequence[Cell], board: Board) -> bool:
    """Whether the cells stand as a number is read: rightwards or downwards, side by side."""
    steps = {after - before for before, after in pairwise(total)}
    return not steps or steps in ({1}, {board.columns})


def _can_be(arrow: Arrow, item: Node, reader: Reader) -> bool:
    digits = reader.board.digits
    if len(arrow.total) > 1 and digits > LARGEST_FIGURE:
        expected = f"one circled cell on a board of more than {LARGEST_FIGURE} digits"
        reader.problems.expected(item.place, "a total of several cells", expected)
        return False
    if len(arrow.total) == 1 and len(arrow.shaft) > digits:
        found = f"a shaft of {len(arrow.shaft)} cells"
        reader.problems.expected(item.place, found, f"at most {digits}, the largest circled digit")
        return False
    return True


def draw(board: Board, arrows: Sequence[Arrow]) -> tuple[Mark, ...]:
    """A ring for each total, with all the shafts that leave it."""
    shafts: dict[tuple[Cell, ...], list[tuple[Cell, ...]]] = {}
    for arrow in arrows:
        root = min(arrow.total, key=lambda cell: _distance(board, cell, arrow.shaft[0]))
        shafts.setdefault(arrow.total, []).append((root, *arrow.shaft))
    return tuple(
        Trail("arrow", tuple(branches), end="arrowhead", ring=total)
        for total, branches in shafts.items()
    )


def _distance(board: Board, one: Cell, other: Cell) -> int:
    (r1, c1), (r2, c2) = board.place(one), board.place(other)
    return (r1 - r2) ** 2 + (c1 - c2) ** 2


def says(arrows: Sequence[Arrow]) -> tuple[Saying, ...]:
    """One sentence, and one more where a total has several cells."""
    several = any(len(arrow.total) > 1 for arrow in arrows)
    return (Saying("arrow", len(arrows)), *([Saying("arrow-total")] if several else []))


RULE = Rule(
    name="arrow",
    meaning="The digits on the shaft sum to the digit in the circle.",
    marks="a list of paths from the circle, or of `{total: PATH, shaft: PATH}`",
    schema={
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
    },
    read=read,
    draw=draw,
    says=says,
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Two currents
kind: sudoku
size: 6
rules:
  arrow:
    - r3c1 e se
    - r2c5 sw w
    - {total: r6c1 e, shaft: r5c3 ne e}
givens: |
  . . . | . . 6
  . . 4 | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . 2 | . . .
  . . . | . . .
""",
)
